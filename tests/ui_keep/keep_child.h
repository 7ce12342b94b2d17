#pragma once
#include <QByteArray>
#include <QStringList>

namespace slab {
struct Project;
}

namespace slab::ui::test {

/// The program that gets killed: no window, the real document file, history and autosave. Opens
/// `arguments[0]`, then edits, drags, deletes, undoes, redoes, saves and flushes at random from the seed
/// `arguments[2]`; the whole pipeline runs behind it if `arguments[3]` is "all". Before every step it writes
/// "p NUMBER HASH" (what the document will be) to the file `arguments[1]`, and after it "d NUMBER
/// MILLISECONDS". Never comes back.
int keepChild(const QStringList& arguments);

/// The same with the real window and its whole pipeline: undone, redone and saved by its keys. Before step 0
/// it writes as "p 1" what a window that was killed before has left; then it brings that back by a click.
int windowChild(const QStringList& arguments);

[[nodiscard]] QByteArray hashOf(const Project& project);
/// Now on the clock that parent and child share, ms.
[[nodiscard]] double sharedClock();

} // namespace slab::ui::test
