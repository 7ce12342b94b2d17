#pragma once
// Which plates the patterns of a document reach: by the names that its forms give. Private to the room.
#include "core/document/project.h"

namespace slab::detail {

/// The plates of one form, or of one hand of a mirrored form: "hull/port" and, for what its curves make of
/// it, "hull/port~1".
struct FormPlates {
    std::string form;
    std::vector<std::string> names;
};
[[nodiscard]] std::vector<FormPlates> platesOf(const std::vector<Form>& forms);

[[nodiscard]] bool reaches(const std::string& pattern, const FormPlates& plates);
[[nodiscard]] bool reaches(const std::string& pattern, const std::vector<FormPlates>& all);

/// Is a plate name or pattern one of this form's own ("hull/port", "hull/*", "hull/port#2")?
[[nodiscard]] bool isOf(const std::string& pattern, const std::string& form);

/// Patterns that mean for one form what `pattern` means for it, and reach no other form.
[[nodiscard]] std::vector<std::string> narrowed(const std::string& pattern, const FormPlates& plates);
/// `pattern` as it is if it reaches none of `others`, else narrowed to each form that it reaches.
[[nodiscard]] std::vector<std::string> keptApart(const std::string& pattern,
                                                 const std::vector<FormPlates>& own,
                                                 const std::vector<FormPlates>& others);

/// Index of the first pattern that a plate matches; the number of patterns if there is none.
[[nodiscard]] int rankIn(const std::vector<std::string>& order, const std::string& plate);
/// Sheet of a plate; the fallback if no entry matches.
[[nodiscard]] const std::string& sheetIn(const Materials& materials, const std::string& plate);

} // namespace slab::detail
