#pragma once

namespace slab::ui {

/// Lets screen readers read and move the rule's handle as they do a slider. Once for the program; again does
/// nothing.
void speakForRules();

} // namespace slab::ui
