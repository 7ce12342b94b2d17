#include "ui/tables/table_edits.h"
#include "ui/tables/field_words.h"
#include "ui/tables/new_form.h"
#include <algorithm>
#include <charconv>

namespace slab::ui {

namespace {

std::string described(const Node& node) {
    const Node* named = &node;
    while (named->parent && named->name().empty()) named = named->parent;
    const std::string what = wordsOf(node).label.toStdString();
    return named->name().empty() || named == &node ? what : what + " of " + named->name();
}

/// "/forms/3/kind" -> 3
int formIndex(const Node& node) {
    const Node* at = &node;
    while (at && !(at->owner == "form" && at->entry && at->kind == Node::Kind::group)) at = at->parent;
    return at ? at->row() : -1;
}

Edit formKind(const Node& node, const std::string& kind) {
    return {
        "Change kind of form", {}, [at = formIndex(node), kind](const Project& before) -> Expected<Project> {
            if (at < 0 || static_cast<std::size_t>(at) >= before.forms.size())
                return fail("no-such-place", "That form is gone.");
            Project project = before;
            project.forms[static_cast<std::size_t>(at)].shape = plainShape(kind);
            return project;
        }};
}

bool isNumber(std::string_view text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return !text.empty() && error == std::errc{} && end == text.data() + text.size();
}

/// The kind of value that a dimension has now decides whether a bare number means a length.
bool isLength(const Session& session, const Node& node) {
    if (node.role == Role::length) return true;
    if (node.owner != "dimension" || node.key != "value") return false;
    const auto& scope = session.evaluation().scope;
    if (!scope) return false;
    const auto at = scope->values.find(node.parent->name());
    return at != scope->values.end() && at->second.kind == Kind::length;
}

} // namespace

Edit chained(std::string label, std::vector<Edit> edits) {
    return {std::move(label), {}, [edits = std::move(edits)](const Project& before) -> Expected<Project> {
                Project project = before;
                for (const Edit& edit : edits) {
                    auto next = edit.apply(project);
                    if (!next) return next;
                    project = std::move(*next);
                }
                return project;
            }};
}

Edit editFor(const Session& session, const Node& node, const QString& typed) {
    std::string text = typed.trimmed().toStdString();
    const std::string pointer = node.pointer(), label = "Change " + described(node);
    if (node.kind == Node::Kind::flag) return setValue(pointer, text == "true" ? "true" : "false", label);
    if (node.kind == Node::Kind::real)
        return setValue(pointer, isNumber(text) ? text : quotedJson(text), label);
    if (node.kind == Node::Kind::json) return setValue(pointer, text, label);
    if (node.owner == "form" && node.key == "kind") return formKind(node, text);
    if (node.key == "name" && node.parent && node.parent->entry) return renameFor(*node.parent, typed);
    const bool inMap = node.entry && node.parent && node.parent->kind == Node::Kind::map;
    if (text.empty() && inMap) {
        if (node.field == "plates") return setValue(pointer, "null", label);
        return node.absent ? chained(label, {}) : removeValue(pointer, label);
    }
    if (node.kind == Node::Kind::text && node.role != Role::label && !text.empty() && text.front() == '=')
        text = QString::fromStdString(text.substr(1)).trimmed().toStdString();
    if (isLength(session, node)) text = withUnit(text, session.unitStyle().unit);
    return setValue(pointer, quotedJson(text), label);
}

Edit renameFor(const Node& node, const QString& name) {
    const std::string to = name.trimmed().toStdString(), from = node.name();
    if (node.owner == "dimension") return renameDimension(from, to);
    if (node.owner == "form") return renameForm(from, to);
    if (node.owner == "sheet") return renameStock(from, to);
    if (node.parent && node.parent->kind == Node::Kind::map) {
        const std::string map = node.parent->pointer();
        const std::string value = node.nothing ? "null" : quotedJson(node.value);
        return chained("Rename " + from,
                       {removeValue(node.pointer()),
                        insertValue(map, node.row(), "{" + quotedJson(to) + ": " + value + "}")});
    }
    if (!node.child("name")) return setValue(node.pointer() + "/panel", quotedJson(to), "Rename " + from);
    Edit edit = renameAt(node.pointer(), to);
    edit.label = "Rename " + from;
    return edit;
}

Edit addEntry(const Session& session, const Node& list, int at, const QString& kind) {
    const std::string label = "Add to " + wordsOf(list).label.toStdString();
    const std::string entry = newEntry(session, list, at, kind);
    const Edit add = insertValue(list.pointer(), at, entry, label);
    const Project& project = session.project();
    if (list.owner != "sheet" || !project.materials.fallback.empty() || !project.stock.sheets.empty())
        return add;
    // The first sheet is what everything is cut from until the builder says otherwise.
    const Edit use{label, {}, [](const Project& before) -> Expected<Project> {
                       Project with = before;
                       with.materials.fallback = with.stock.sheets.front().name;
                       return with;
                   }};
    return chained(label, {add, use});
}

Edit removeEntry(const Node& entry) {
    return removeValue(entry.pointer(), "Delete " + wordsOf(entry).label.toStdString());
}

Edit moveEntry(const Node& entry, int to) {
    return moveValue(entry.parent->pointer(), entry.row(), to, "Move " + wordsOf(entry).label.toStdString());
}

Edit setPlateStock(const std::string& plate, const std::string& stock) {
    return {stock.empty() ? "Leave out " + plate : "Cut " + plate + " from " + stock,
            {},
            [plate, stock](const Project& before) -> Expected<Project> {
                Project project = before;
                auto& rules = project.materials.plates;
                std::erase_if(rules, [&](const PlateMaterial& r) { return r.plates == plate; });
                const auto first = std::find_if(rules.begin(), rules.end(), [&](const PlateMaterial& r) {
                    return matches(r.plates, plate);
                });
                const std::string now = first == rules.end() ? project.materials.fallback : first->stock;
                if (now != stock) rules.insert(rules.begin(), {plate, stock});
                return project;
            }};
}

Edit setPlateRank(const std::string& plate, int rank) {
    return {"Change order of " + plate, {}, [plate, rank](const Project& before) -> Expected<Project> {
                Project project = before;
                auto& order = project.joints.order;
                std::erase(order, plate);
                if (rank >= 0) {
                    const auto at = std::min(static_cast<std::size_t>(rank), order.size());
                    order.insert(order.begin() + static_cast<std::ptrdiff_t>(at), plate);
                }
                return project;
            }};
}

std::string freeName(const std::string& wanted, const std::vector<std::string>& taken) {
    std::string name = wanted;
    const bool identifier = wanted.find('_') != std::string::npos || wanted.find(' ') == std::string::npos;
    for (int n = 2; std::find(taken.begin(), taken.end(), name) != taken.end(); ++n)
        name = wanted + (identifier ? "_" : " ") + std::to_string(n);
    return name;
}

} // namespace slab::ui
