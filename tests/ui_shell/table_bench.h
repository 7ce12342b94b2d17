#pragma once
#include "tests/ui_shell/fakes.h"
#include "ui/tables/document_model.h"
#include "ui/tables/table_section.h"
#include "ui/window/left_column.h"

namespace slab::ui::test {

/// The tables of a document, without a window and without the pipeline.
struct TableBench {
    Session session{quickEngine()};
    LeftColumn tables{&session};

    explicit TableBench(Project project) { load(std::move(project)); }
    void load(Project project) {
        session.replace(std::move(project));
        EXPECT_TRUE(session.waitUntilAtRest(20000));
    }
    /// The cell of a pointer in whichever table has it.
    std::pair<DocumentModel*, QModelIndex> cell(const std::string& pointer,
                                                int column = DocumentModel::typed) {
        for (TableSection* section : tables.sections()) {
            const QModelIndex at = section->model()->find(pointer, column);
            if (at.isValid() && section->model()->nodeOf(at)->pointer() == pointer)
                return {section->model(), at};
        }
        return {nullptr, {}};
    }
    bool set(const std::string& pointer, const QString& text) {
        const auto [model, at] = cell(pointer);
        return model && model->setData(at, text);
    }
    QString shown(const std::string& pointer, int column) {
        const auto [model, at] = cell(pointer, column);
        return model ? at.data().toString() : QString("no such row");
    }
};

} // namespace slab::ui::test
