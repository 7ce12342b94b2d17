#pragma once
// The document as a tree of rows, made from core/document/describe.h: every field of every object is in it,
// so whatever the file can say the window can change.
#include "core/document/describe.h"
#include <memory>
#include <string>
#include <vector>

namespace slab::ui {

using detail::Role;

/// One place in the document.
struct Node {
    enum class Kind {
        text,   ///< formula, name or words
        choice, ///< one of `words`
        flag,
        real,  ///< a JSON number
        group, ///< object
        list,  ///< of objects
        names, ///< list of texts
        map,   ///< names to texts
        pair,  ///< two texts
        json,  ///< a field that this version does not know, as JSON text
        fact   ///< not in the document: what follows from the entry; `value` explains it
    };
    Kind kind = Kind::group;
    std::string key;   ///< token of the JSON pointer; an index in a list
    std::string owner; ///< what the object is: "form", "outline point", "sheet" …
    std::string field; ///< key of the field that it belongs to (entries of a list: that of the list)
    Role role = Role::label;
    std::string value;     ///< as typed; flags "true" or "false"
    bool entry = false;    ///< member of a list, names or map: can be moved, doubled, deleted
    bool required = false; ///< cannot be emptied
    bool nothing = false;  ///< map of plates: no sheet there
    bool absent = false;   ///< offered, not in the document: a generic size that was not changed
    double generic = 0;    ///< the value that an absent or emptied entry has, mm
    std::string label;     ///< other words for it
    std::string check;     ///< of a reading: how it goes with the others
    std::vector<std::string> words;
    std::vector<std::unique_ptr<Node>> children;
    Node* parent = nullptr;

    std::string base; ///< pointer of the top of a copied part, in front of the keys below it
    [[nodiscard]] std::string pointer() const; ///< RFC 6901
    [[nodiscard]] int row() const;
    [[nodiscard]] const Node* child(std::string_view wanted) const; ///< by key, or null
    [[nodiscard]] Node* child(std::string_view wanted);
    /// The name that it carries, empty if none.
    [[nodiscard]] std::string name() const;
    Node& add(Kind newKind, std::string newKey);
    /// The same rows once more; its top remembers where it came from.
    [[nodiscard]] std::unique_ptr<Node> copy() const;
};

/// Names that a map may hold though the document does not say them yet.
struct Offer {
    std::string pointer; ///< of the map
    std::string key, label;
    double generic = 0; ///< mm
    Role role = Role::length;
    std::string check = {};
};
/// Adds what the document does not say yet as absent entries, in the offers' order.
void addOffers(Node& root, const std::vector<Offer>& offers);

/// A figure that follows from an entry.
struct FactRow {
    std::string pointer, name; ///< of the entry; one that has another name by now gets no row
    std::string key, label, tip;
};
/// Adds what follows from the entries below their fields.
void addFacts(Node& root, const std::vector<FactRow>& facts);

/// The whole document; the root is the group "document".
[[nodiscard]] std::unique_ptr<Node> treeOf(const Project& project);
/// The node at a pointer, or null.
[[nodiscard]] Node* nodeAt(Node& root, std::string_view pointer);

/// Text as JSON.
[[nodiscard]] std::string quotedJson(std::string_view text);

} // namespace slab::ui
