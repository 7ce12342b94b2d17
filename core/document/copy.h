#pragma once
// Forms from one document to another, or within one.
#include "core/document/edit.h"

namespace slab {

/// Forms as text that stands for itself: a JSON object {"slabside_forms": 1, "document": {…}} with the forms,
/// the dimensions that their formulas need (and those that these need), the openings and seams in their
/// plates, and the sheets, materials, ranks and joints that apply to them. A bare number that takes the
/// document's unit gets that unit written behind it; sizes at full scale stay so.
/// @error "no-such-form"
[[nodiscard]] Expected<std::string> copyForms(const Project& project, const std::vector<std::string>& names);

/// Brings copied forms in. What is there already stays as it is:
/// - a form or opening whose name is taken gets a new one ("hull 2"), and its plates' names follow;
/// - a dimension of the same name and value is shared, one of another value gets a new name ("height_2"), and
///   the formulas follow; likewise sheets (size, thickness and kind; what they cost and how many there are is
///   this document's own);
/// - materials, ranks and joints are added where the document would give the forms other ones, and worded so
///   that they reach no other plate. Ranks that are equal across several forms stay so only where that can be
///   said.
/// A form that would stand exactly where an equal one stands is moved 100 mm forward, so that it is seen. The
/// document's scale is not touched.
/// Applied: error "not-forms" (the text is something else), or why the document would not be sound.
[[nodiscard]] Edit pasteForms(std::string text, std::string label = "Paste forms");
/// Copy and paste in one step. Applied: error "no-such-form".
[[nodiscard]] Edit duplicateForms(std::vector<std::string> names);
/// A document with nothing but the donor, rider and clearances of this one and the dimensions that they need,
/// at scale 1. Every length says its unit; a dimension that follows the scale is held at its built size.
[[nodiscard]] Project donorAlone(const Project& project);
/// Names of the forms in a copied text, in order; empty if it is something else.
[[nodiscard]] std::vector<std::string> formsInText(const std::string& text);

} // namespace slab
