#pragma once
// Failure as a value. A function that can meet bad input returns Expected<T>; what a builder should see is a
// Finding; a broken promise of our own is an assert.
#include <string>
#include <tl/expected.hpp>

namespace slab {

/// Why something could not be done, in words a builder can act on.
struct Error {
    std::string code;    ///< stable kebab-case key, e.g. "unknown-name"
    std::string message; ///< one plain sentence: what is wrong
    std::string where;   ///< place: a JSON pointer, "line 3 column 7", a plate or form name; may be empty
    std::string remedy;  ///< what to do about it; may be empty
    bool operator==(const Error&) const = default;
};

template <class T> using Expected = tl::expected<T, Error>;
using Unexpected = tl::unexpected<Error>;

/// Shorthand: `return fail("too-thin", "…", where, remedy);`
[[nodiscard]] inline Unexpected fail(std::string code, std::string message, std::string where = {},
                                     std::string remedy = {}) {
    return Unexpected(Error{std::move(code), std::move(message), std::move(where), std::move(remedy)});
}

} // namespace slab
