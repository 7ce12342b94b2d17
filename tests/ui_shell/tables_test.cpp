#include "core/document/fields.h"
#include "tests/ui_shell/everything.h"
#include "tests/ui_shell/table_bench.h"
#include "ui/tables/field_words.h"
#include "ui/tables/plates_model.h"
#include "ui/tables/table_edits.h"
#include "ui/tables/table_tree.h"
#include <QSignalSpy>
#include <fstream>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>

namespace slab::ui {
namespace {

using Json = nlohmann::ordered_json;
using test::TableBench;

/// Another value that the same field could have.
QString otherValue(const Node& node) {
    if (node.kind == Node::Kind::choice) {
        for (const std::string& word : node.words)
            if (word != node.value && !word.empty()) return QString::fromStdString(word);
        return {};
    }
    if (node.kind == Node::Kind::real) return "42.5";
    if (node.kind == Node::Kind::json) return "\"other\"";
    if (node.key == "scale") return "0.3";
    if (node.key == "name" && node.owner == "dimension") return "other_name";
    switch (node.role) {
    case Role::stock:
        return node.value == "foam" ? "board" : "foam";
    case Role::angle:
        return "12 deg";
    case Role::length:
    case Role::any:
        return "123 mm";
    case Role::number:
        return "5";
    case Role::point:
        return node.key == "name" ? "zz" : node.value == "a" ? "b" : "a";
    default:
        if (node.key == "paper") return node.value == "A3" ? "A4" : "A3";
        return "other";
    }
}

/// Changes the cell, checks that the document changed there, and that one Undo brings everything back.
void changeAndUndo(TableBench& bench, DocumentModel* model, const QModelIndex& at,
                   const std::string& pointer) {
    const Project before = bench.session.project();
    const Node* field = model->edited(at);
    ASSERT_NE(field, nullptr) << pointer << " has no cell to edit";
    ASSERT_TRUE(at.flags() & (Qt::ItemIsEditable | Qt::ItemIsUserCheckable)) << pointer;
    std::string refused;
    const auto watch = QObject::connect(&bench.session, &Session::refused,
                                        [&](const Error& e) { refused = e.message + " (" + e.where + ")"; });
    if (field->kind == Node::Kind::flag)
        model->setData(at, field->value == "true" ? Qt::Unchecked : Qt::Checked, Qt::CheckStateRole);
    else
        model->setData(at, otherValue(*field));
    QObject::disconnect(watch);
    EXPECT_NE(bench.session.project(), before) << pointer << " did not change: " << refused;
    bench.session.undo();
    EXPECT_EQ(bench.session.project(), before) << pointer << " did not come back";
    if (bench.session.project() != before) bench.load(before);
}

/// Every row of a table that has a cell to edit, by pointer.
void collect(const DocumentModel& model, const QModelIndex& parent, std::vector<std::string>& leaves) {
    for (int i = 0; i < model.rowCount(parent); ++i) {
        const QModelIndex at = model.index(i, 0, parent);
        const Node* node = model.nodeOf(at);
        if (node->children.empty() && node->kind != Node::Kind::list && node->kind != Node::Kind::names &&
            node->kind != Node::Kind::map && node->kind != Node::Kind::group)
            leaves.push_back(node->pointer());
        collect(model, at, leaves);
    }
}

/// "/forms/3/outline/0/x" -> "/forms/*/outline/*/x"; names in maps become * too.
std::string pattern(const std::string& pointer) {
    std::string out;
    std::stringstream tokens(pointer);
    std::string token, before;
    std::getline(tokens, token, '/');
    while (std::getline(tokens, token, '/')) {
        const bool index = token.find_first_not_of("0123456789") == std::string::npos;
        const bool map = (before == "plates" && out == "/materials/plates") || out == "/donor/changes" ||
                         out == "/donor/measures" || out == "/rider/figures" ||
                         out == "/passengers/*/figures" || out == "/clearance/solids" ||
                         out == "/forms/*/weights";
        out += "/" + (index || map ? std::string("*") : token);
        before = token;
    }
    return out;
}

TEST(Tables, EveryValueCanBeChangedAndUndone) {
    TableBench bench(test::everything());
    std::vector<std::string> pointers;
    for (TableSection* section : bench.tables.sections()) collect(*section->model(), {}, pointers);
    EXPECT_GT(pointers.size(), 150U);
    for (const std::string& pointer : pointers) {
        const auto [model, at] = bench.cell(pointer);
        ASSERT_NE(model, nullptr) << pointer;
        if (model->nodeOf(at)->absent) continue; // offered sizes are tried below
        changeAndUndo(bench, model, at, pointer);
    }
}

TEST(Tables, EveryFieldOfTheDocumentHasARow) {
    TableBench bench(test::everything());
    std::vector<std::string> pointers;
    for (TableSection* section : bench.tables.sections()) collect(*section->model(), {}, pointers);
    std::set<std::string> rows;
    for (const std::string& pointer : pointers) rows.insert(pattern(pointer));
    for (const FieldInfo& field : documentFields()) {
        if (field.type == "object" || field.type == "list" || field.type == "version") continue;
        const bool many = field.type == "names" || field.type == "pair" || field.type == "map";
        EXPECT_TRUE(rows.contains(many ? field.pointer + "/*" : field.pointer))
            << field.pointer << " (" << field.type << ") cannot be changed in the window";
    }
}

/// All property names of a JSON schema with the keys above them, $ref followed.
void walkSchema(const Json& root, const Json& node, const std::string& at, std::set<std::string>& found,
                int depth) {
    if (depth > 12) return;
    if (node.contains("$ref")) {
        const std::string ref = node["$ref"];
        return walkSchema(root, root.at(Json::json_pointer(ref.substr(1))), at, found, depth + 1);
    }
    for (const char* key : {"allOf", "anyOf", "oneOf"})
        if (node.contains(key))
            for (const Json& part : node[key]) walkSchema(root, part, at, found, depth + 1);
    for (const char* key : {"if", "then", "else"})
        if (node.contains(key)) walkSchema(root, node[key], at, found, depth + 1);
    if (node.contains("properties"))
        for (const auto& [name, property] : node["properties"].items()) {
            found.insert(at + "/" + name);
            walkSchema(root, property, at + "/" + name, found, depth + 1);
        }
    if (node.contains("items") && node["items"].is_object())
        walkSchema(root, node["items"], at + "/*", found, depth + 1);
    if (node.contains("additionalProperties") && node["additionalProperties"].is_object())
        walkSchema(root, node["additionalProperties"], at + "/*", found, depth + 1);
}

TEST(Tables, EveryPropertyOfTheSchemaIsReachable) {
    std::ifstream in(std::string(SLABSIDE_SOURCE_DIR) + "/resources/slabside.schema.json");
    ASSERT_TRUE(in.good());
    const Json schema = Json::parse(in);
    std::set<std::string> properties;
    walkSchema(schema, schema, "", properties, 0);
    EXPECT_GT(properties.size(), 100U);
    TableBench bench(test::everything());
    std::set<std::string> rows;
    const std::function<void(const DocumentModel&, const QModelIndex&)> walk =
        [&](const DocumentModel& model, const QModelIndex& parent) {
            for (int i = 0; i < model.rowCount(parent); ++i) {
                const QModelIndex at = model.index(i, 0, parent);
                rows.insert(pattern(model.nodeOf(at)->pointer()));
                walk(model, at);
            }
        };
    for (TableSection* section : bench.tables.sections()) {
        for (const std::string& root : section->spec().roots) rows.insert(root);
        walk(*section->model(), {});
    }
    for (const std::string& property : properties) {
        if (property == "/slabside" || property == "/stock") continue; // the version; shown by its parts
        EXPECT_TRUE(rows.contains(property)) << property << " is in the schema, but in no table";
    }
}

TEST(Tables, EveryFieldHasWordsOfItsOwn) {
    const auto tree = treeOf(test::everything());
    const std::function<void(const Node&)> walk = [&](const Node& node) {
        for (const auto& c : node.children) {
            const bool entry = c->entry || node.kind == Node::Kind::pair;
            if (!entry) {
                EXPECT_TRUE(hasWords(node.owner, c->key)) << node.owner << "." << c->key;
            }
            EXPECT_FALSE(wordsOf(*c).label.isEmpty()) << c->pointer();
            walk(*c);
        }
    };
    walk(*tree);
}

TEST(Tables, AnOfferedSizeIsTypedAndGivenBack) {
    TableBench bench(test::everything());
    const auto sizes = donorSizes("powered_chair");
    ASSERT_FALSE(sizes.empty());
    const auto other =
        std::find_if(sizes.begin(), sizes.end(), [](const auto& s) { return s.name != "seat_height"; });
    ASSERT_NE(other, sizes.end());
    const std::string pointer = "/donor/changes/" + other->name;
    ASSERT_TRUE(bench.set(pointer, "321"));
    EXPECT_EQ(valueAt(bench.session.project(), pointer).value_or(""), "\"321\"");
    ASSERT_TRUE(bench.set(pointer, ""));
    EXPECT_FALSE(valueAt(bench.session.project(), pointer).has_value());
    bench.session.undo();
    bench.session.undo();
    EXPECT_EQ(bench.session.project(), test::everything());
}

TEST(Tables, ShowsWhatWasTypedAndWhatItBuilds) {
    TableBench bench(test::sample("harbour-fire-boat"));
    EXPECT_EQ(bench.shown("/dimensions/0", DocumentModel::what), "hull_length");
    EXPECT_EQ(bench.shown("/dimensions/0", DocumentModel::typed), "5.2 m");
    EXPECT_EQ(bench.shown("/dimensions/0", DocumentModel::builds), "6′ 9-7/8″")
        << "5.2 m * 2/5 = 2.08 m = 81.89 in";
    EXPECT_EQ(bench.shown("/dimensions/10", DocumentModel::typed), "=beam * 0.47");
}

TEST(Tables, EmptyFieldsOfTheRideShowWhatIsUsed) {
    TableBench bench(test::sample("harbour-tram"));
    ASSERT_TRUE(bench.set("/ride/slope", "1:8"));
    ASSERT_TRUE(bench.session.waitUntilAtRest(20000));
    EXPECT_EQ(bench.shown("/ride/friction", DocumentModel::builds), "0.6");
    EXPECT_EQ(bench.shown("/ride/wind", DocumentModel::builds), "40.0 km/h");
    EXPECT_EQ(bench.shown("/ride/slope", DocumentModel::builds), "1:8, 7.1°");
    ASSERT_TRUE(bench.set("/ride/slope", "steep"));
    ASSERT_TRUE(bench.session.waitUntilAtRest(20000));
    const auto [model, at] = bench.cell("/ride/slope");
    ASSERT_NE(model, nullptr);
    EXPECT_NE(at.data(DocumentModel::troubleRole).toString(), "");
}

TEST(Tables, SpeedsAndMassesCarryTheirUnit) {
    Project p = test::sample("harbour-tram");
    p.units = "ft";
    TableBench bench(p);
    ASSERT_TRUE(bench.set("/ride/speed", "5 mph"));
    ASSERT_TRUE(bench.set("/ride/wind", "40"));
    ASSERT_TRUE(bench.set("/rider/mass", "100 lb"));
    ASSERT_TRUE(bench.session.waitUntilAtRest(20000));
    EXPECT_EQ(bench.shown("/ride/speed", DocumentModel::what), "speed");
    EXPECT_EQ(bench.shown("/ride/speed", DocumentModel::typed), "5 mph");
    EXPECT_EQ(bench.shown("/ride/speed", DocumentModel::builds), "5.0 mph");
    EXPECT_EQ(bench.shown("/ride/wind", DocumentModel::typed), "40 km/h") << "what a plain number counts";
    EXPECT_EQ(bench.shown("/ride/wind", DocumentModel::builds), "24.9 mph");
    EXPECT_EQ(bench.shown("/rider/mass", DocumentModel::builds), "100 lb");
    EXPECT_EQ(bench.session.project().ride.wind, "40");
    EXPECT_TRUE(bench.shown("/donor/changes/rated_load", DocumentModel::builds).endsWith(" lb"));
    EXPECT_EQ(bench.shown("/donor/changes/rated_load", DocumentModel::what), "load that it may carry");
    EXPECT_TRUE(bench.shown("/donor/changes/top_speed", DocumentModel::builds).endsWith(" mph"));
}

TEST(Tables, AFormulaThatCannotBeReadSaysWhy) {
    TableBench bench(test::sample("moon-crawler"));
    ASSERT_TRUE(bench.set("/forms/0/outline/0/x", "lenght * 2"));
    ASSERT_TRUE(bench.session.waitUntilAtRest(20000));
    const auto [model, at] = bench.cell("/forms/0/outline/0/x");
    ASSERT_NE(model, nullptr);
    EXPECT_TRUE(at.data(DocumentModel::troubleRole).toString().contains("lenght"))
        << at.data(DocumentModel::troubleRole).toString().toStdString();
    EXPECT_TRUE(at.data(Qt::ToolTipRole).toString().contains("lenght"));
    bench.session.undo();
    EXPECT_EQ(at.data(DocumentModel::troubleRole).toString(), "");
}

TEST(Tables, ABareNumberGetsTheUnitAndAnEqualsSignGoes) {
    TableBench bench(test::sample("moon-crawler"));
    ASSERT_TRUE(bench.set("/dimensions/0", "2500"));
    EXPECT_EQ(bench.session.project().dimensions[0].value, "2500 mm");
    ASSERT_TRUE(bench.set("/dimensions/0", "= width * 2"));
    EXPECT_EQ(bench.session.project().dimensions[0].value, "width * 2");
}

TEST(Tables, RenamingADimensionFollowsInFormulas) {
    TableBench bench(test::sample("moon-crawler"));
    const auto [model, at] = bench.cell("/dimensions/1", DocumentModel::what);
    ASSERT_TRUE(model->setData(at, "breadth"));
    EXPECT_EQ(bench.session.project().dimensions[1].name, "breadth");
    EXPECT_EQ(std::get<ProfileShape>(bench.session.project().forms[0].shape).outline[0].half_width,
              "breadth / 2");
    bench.session.undo();
    EXPECT_EQ(bench.session.project(), test::sample("moon-crawler"));
}

TEST(Tables, RowsAreAddedDoubledMovedAndDeleted) {
    const Project before = test::everything();
    TableBench bench(before);
    int steps = 0;
    for (TableSection* section : bench.tables.sections()) {
        std::vector<std::string> entries;
        const std::function<void(const QModelIndex&)> walk = [&](const QModelIndex& parent) {
            for (int i = 0; i < section->model()->rowCount(parent); ++i) {
                const QModelIndex at = section->model()->index(i, 0, parent);
                const Node* node = section->model()->nodeOf(at);
                if (node->entry && !node->absent) entries.push_back(node->pointer());
                walk(at);
            }
        };
        walk({});
        for (const std::string& pointer : entries)
            for (int deed = 0; deed < 3; ++deed) {
                ASSERT_TRUE(section->reveal(pointer)) << pointer;
                if (deed == 0) section->addEntryHere();
                if (deed == 1) section->duplicateHere();
                if (deed == 2) section->moveHere(1);
                if (bench.session.project() != before) ++steps;
                while (bench.session.history().canUndo()) bench.session.undo();
                ASSERT_EQ(bench.session.project(), before) << pointer;
            }
    }
    EXPECT_GT(steps, 60);
    TableSection* dimensions = bench.tables.sections()[0];
    ASSERT_TRUE(dimensions->reveal("/dimensions/0"));
    dimensions->deleteHere();
    EXPECT_TRUE(bench.session.project().dimensions.empty());
}

TEST(Tables, EachKindOfFormCanBeAddedAndChangedToEachOther) {
    TableBench bench(test::sample("moon-crawler"));
    const std::size_t before = bench.session.project().forms.size();
    for (const auto word : detail::kShapeWords) {
        TableSection* forms = bench.tables.sections()[1];
        forms->addEntryHere(QString::fromUtf8(word.data(), static_cast<int>(word.size())));
    }
    EXPECT_EQ(bench.session.project().forms.size(), before + detail::kShapeWords.size());
    for (std::size_t i = 0; i < detail::kShapeWords.size(); ++i) {
        const auto word = detail::kShapeWords[i];
        const QString kind = QString::fromUtf8(word.data(), static_cast<int>(word.size()));
        if (bench.session.project().forms[0].shape.index() != i) {
            EXPECT_TRUE(bench.set("/forms/0", kind)) << word;
        }
        EXPECT_TRUE(readProject(writeProject(bench.session.project())).has_value()) << word;
    }
}

TEST(Tables, RowsHoldStillWhileOthersComeAndGo) {
    TableBench bench(test::sample("harbour-fire-boat"));
    TableSection* forms = bench.tables.sections()[1];
    const QPersistentModelIndex house = forms->model()->find("/forms/1");
    forms->tree()->expand(QModelIndex(house).siblingAtColumn(0));
    ASSERT_TRUE(bench.session.apply(removeValue("/forms/0")));
    ASSERT_TRUE(house.isValid());
    EXPECT_EQ(forms->model()->nodeOf(house)->pointer(), "/forms/0");
    EXPECT_EQ(forms->model()->nodeOf(house)->name(), "wheelhouse");
    EXPECT_TRUE(forms->tree()->isExpanded(QModelIndex(house).siblingAtColumn(0)));
}

TEST(Tables, OneClickLeavesAPlateOut) {
    Project project = test::sample("moon-crawler");
    const Edit out = setPlateStock("tub/port", "");
    const auto left = out.apply(project);
    ASSERT_TRUE(left.has_value());
    EXPECT_EQ(stockOfPlate(*left, "tub/port"), "");
    const auto back = setPlateStock("tub/port", "card_6").apply(*left);
    ASSERT_TRUE(back.has_value());
    EXPECT_EQ(*back, project) << "no rule is left behind";
    const auto ranked = setPlateRank("cabin/back", 0).apply(project);
    ASSERT_TRUE(ranked.has_value());
    EXPECT_EQ(ranked->joints.order.front(), "cabin/back");
    EXPECT_EQ(ranked->joints.order.size(), project.joints.order.size());
}

} // namespace
} // namespace slab::ui
