#pragma once
// A board without a window: real events on the sheet, the pipeline left out.
#include "tests/ui_shell/fakes.h"
#include "tests/ui_shell/mouse.h"
#include "ui/board/board_canvas.h"
#include "ui/board/drafting_view.h"
#include <QApplication>
#include <QTest>
#include <memory>

namespace slab::ui::test {

struct BoardBench {
    std::unique_ptr<Session> session;
    std::unique_ptr<DraftingView> view;

    explicit BoardBench(Project project = {}, Engine engine = quickEngine())
        : session(std::make_unique<Session>(std::move(engine))) {
        session->replace(std::move(project));
        view = std::make_unique<DraftingView>(session.get());
        view->resize(1200, 800);
        view->show();
        QCoreApplication::processEvents();
        canvas().fit();
    }
    [[nodiscard]] BoardCanvas& canvas() const { return *view->canvas(); }
    [[nodiscard]] BoardDesk& desk() const { return *view->desk(); }
    [[nodiscard]] const Project& project() const { return session->project(); }
    [[nodiscard]] QPoint px(BoardView in, const Vec2& at) const { return canvas().pixelOf(in, at).toPoint(); }
    void click(BoardView in, const Vec2& at, Qt::KeyboardModifiers keys = {}) const {
        QTest::mouseMove(&canvas(), px(in, at));
        QTest::mouseClick(&canvas(), Qt::LeftButton, keys, px(in, at));
    }
    /// Pressed, moved in steps, let go.
    void drag(const QPoint& from, const QPoint& to, Qt::KeyboardModifiers keys = {}) const {
        slab::test::dragOn(canvas(), from, to, keys);
    }
    void key(int key, Qt::KeyboardModifiers keys = {}) const {
        QTest::keyClick(&canvas(), static_cast<Qt::Key>(key), keys);
    }
    /// Build-size place of a named point in a view. Fails the test if it is not there.
    [[nodiscard]] Vec2 at(BoardView in, const std::string& name) const {
        for (const BoardPoint& p : desk().scene().of(in).points)
            if (p.name == name && p.ref.handle == Handle::corner && !p.mirrored) return p.at;
        ADD_FAILURE() << "no point " << name;
        return Vec2::Zero();
    }
};

inline OutlinePoint corner(const char* name, const char* x, const char* z, const char* half) {
    OutlinePoint p;
    p.name = name;
    p.x = x;
    p.z = z;
    p.half_width = half;
    return p;
}

/// A profile form of five points, a metre high and three long.
inline Project hull() {
    Project project;
    project.title = "hull";
    project.scale = "1";
    project.dimensions = {{"length", "3 m", Space::subject, {}, {}}};
    Form form;
    form.name = "hull";
    form.shape = ProfileShape{{corner("keel", "0", "0", "0.4 m"), corner("forefoot", "2.5 m", "0", "0.4 m"),
                               corner("stem", "length", "1 m", "0.5 m"),
                               corner("deck", "1 m", "1 m", "0.5 m"), corner("stern", "0", "1 m", "0.5 m")},
                              {}};
    project.forms.push_back(std::move(form));
    return project;
}

} // namespace slab::ui::test
