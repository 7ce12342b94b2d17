#pragma once
#include <QStringList>

namespace slab::ui::test {

/// The window that gets killed: opens `arguments[0]`, then edits the document every 100 ms and writes each
/// edit's number and time to the file `arguments[1]`; saves now and then if `arguments[2]` is "save". Never
/// comes back.
int editChild(const QStringList& arguments);

/// Now on the clock that parent and child share, ms.
[[nodiscard]] double sharedClock();

} // namespace slab::ui::test
