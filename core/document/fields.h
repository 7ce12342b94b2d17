#pragma once
// What the document can hold, as a list: for checks against the schema and for windows that walk all values.
#include <string>
#include <vector>

namespace slab {

/// One field of the document.
struct FieldInfo {
    std::string pointer; ///< "/forms/*/outline/*/x"; * stands for an index, and for a name in groups of names
    /// "object", "list", "names" (list of names), "pair" (list of two), "map" (names to values), "text",
    /// "flag", "real", "version"
    std::string type;
    /// Meaning of the text: "name", "label", "word", "length", "angle", "number", "any", "ratio", "plate",
    /// "panel", "stock", "point", "solid", "print"; empty for objects and lists
    std::string role;
    std::vector<std::string> words; ///< allowed words; empty = any
    bool required = false;          ///< must stand in the file
    std::string kind;               ///< of the form that it belongs to: "profile", …; empty = all
    bool operator==(const FieldInfo&) const = default;
};

/// Every field that readProject knows, in file order.
[[nodiscard]] std::vector<FieldInfo> documentFields();

} // namespace slab
