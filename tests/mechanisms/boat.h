#pragma once
// A plain box hull with a deck at 600 mm, and a document round it, for mechanisms to stand on.
#include "core/mechanisms/mechanisms.h"
#include "core/mechanisms/rounds.h"
#include <gtest/gtest.h>

namespace slab {

struct Boat {
    Project project;
    Scope scope;
    StockSet stock;
    Body body;
    PlateRules rules;
    MechanismSet set;
    PlateSet plates;

    Boat() {
        project.units = "mm";
        SheetStock ply;
        ply.name = "ply_12";
        ply.kind = "plywood";
        ply.width = "1220 mm";
        ply.length = "2440 mm";
        ply.thickness = "12 mm";
        ply.density = "600";
        project.stock.sheets = {ply};
        project.materials.fallback = "ply_12";
        add("hull", makeBox({-1000, -500, 100}, {1000, 500, 600}));
    }
    /// A closed box of plates, "name/top" and so on, each skin its own body.
    void add(const std::string& name, const Polyhedron& solid) {
        auto made = makeSkin(solid);
        ASSERT_TRUE(made);
        Skin& skin = body.skin;
        const int vertices = static_cast<int>(skin.vertices.size()),
                  faces = static_cast<int>(skin.faces.size());
        for (SkinFace f : made->faces) {
            f.form = name;
            f.name = name + "/" + f.name;
            f.body = skin.bodies;
            for (auto& loop : f.loops)
                for (int& v : loop) v += vertices;
            skin.faces.push_back(f);
        }
        for (SkinEdge e : made->edges) {
            e.a += vertices;
            e.b += vertices;
            e.left += faces;
            e.right += faces;
            skin.edges.push_back(e);
        }
        skin.vertices.insert(skin.vertices.end(), made->vertices.begin(), made->vertices.end());
        ++skin.bodies;
        for (int i = faces; i < static_cast<int>(skin.faces.size()); ++i)
            rules.faces.push_back({"ply_12", 12, i});
    }
    void leaveOut(const std::string& plate) {
        for (std::size_t i = 0; i < body.skin.faces.size(); ++i)
            if (body.skin.faces[i].name == plate) rules.faces[i] = {};
    }
    void make(const std::vector<FitSolid>& solids = {}) {
        stock = resolveStock(project, scope);
        set = resolveMechanisms({project, scope, stock, body, rules, {}});
        PlateRules with = rules;
        with.openings.insert(with.openings.end(), set.openings.begin(), set.openings.end());
        plates = buildPlates(body, with);
        plates.plates.append(set.parts);
        PlateSet all = withRounds(plates, body.rounds, 0);
        all.joints = plates.joints;
        set = sweepMechanisms(std::move(set), all, solids, {});
    }
    [[nodiscard]] double fact(const std::string& key) const {
        for (const MechanismFact& f : set.facts)
            if (f.key == key) return f.value;
        ADD_FAILURE() << "no fact " << key;
        return 0;
    }
    [[nodiscard]] const Plate* plate(const std::string& name) const {
        for (const Plate& p : plates.plates)
            if (p.name == name) return &p;
        return nullptr;
    }
    [[nodiscard]] const Finding* finding(const std::string& code) const {
        for (const Finding& f : set.findings)
            if (f.code == code) return &f;
        return nullptr;
    }
    [[nodiscard]] const SweptCheck* check(const std::string& moving, const std::string& fixed) const {
        for (const SweptCheck& c : set.checks)
            if (c.moving == moving && c.fixed == fixed) return &c;
        return nullptr;
    }
    [[nodiscard]] std::string told() const {
        std::string all;
        for (const Finding& f : set.findings) all += f.code + ": " + f.message + "\n";
        for (const SweptCheck& c : set.checks)
            all += c.moving + " - " + c.fixed + " " + std::to_string(c.clearance) + " " + c.pose + "\n";
        return all;
    }
};

/// A found tub, 400 across with a 25 mm lip 6 mm thick, in plywood rings on the deck.
inline Turntable lampTable() {
    Turntable t;
    t.name = "lamp";
    t.at.z = "600 mm";
    t.diameter = "400 mm";
    t.depth = "180 mm";
    t.wall = "3 mm";
    t.lip = "25 mm";
    t.lip_thickness = "6 mm";
    t.gap = "3 mm";
    t.overlap = "15 mm";
    t.ring_width = "70 mm";
    return t;
}

/// A standing box 300 by 200 by 279 on the lamp's lip, whose top is at 621.
inline Boat lampHouse() {
    Boat boat;
    boat.add("lamp house", makeBox({-150, -100, 621}, {150, 100, 900}));
    boat.leaveOut("lamp house/bottom");
    Turntable t = lampTable();
    t.carries = {"lamp house/*"};
    boat.project.mechanisms.turntables = {t};
    return boat;
}

inline Trunnion monitor() {
    Trunnion t;
    t.name = "monitor";
    t.at.z = "800 mm";
    t.diameter = "90 mm";
    t.front = "700 mm";
    t.rear = "250 mm";
    t.lowest = "-5 deg";
    t.highest = "40 deg";
    t.gap = "5 mm";
    t.stock = "ply_12";
    t.mass = "3";
    return t;
}

} // namespace slab
