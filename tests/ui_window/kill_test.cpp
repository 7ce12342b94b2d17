// Killed at any moment, the window loses at most two seconds of work and never the builder's own file.
#include "core/document/file.h"
#include "tests/ui_window/bench.h"
#include "tests/ui_window/edit_child.h"
#include "ui/session/autosave.h"
#include "ui/window/document_file.h"
#include "ui/window/notice.h"
#include <QFile>
#include <QFileInfo>
#include <QProcess>
#include <QPushButton>
#include <QTest>
#include <random>

namespace slab::ui::test {
namespace {

struct Made {
    int number = 0;
    double at = 0; ///< ms on the shared clock
};

std::vector<Made> editsIn(const QString& log) {
    std::vector<Made> all;
    for (const QByteArray& line : bytesOf(log).split('\n')) {
        const QList<QByteArray> words = line.split(' ');
        if (words.size() == 2) all.push_back({words[0].toInt(), words[1].toDouble()});
    }
    return all;
}

/// "edit 17" -> 17; the sample's own title -> 0.
int numberOf(const Project& project) {
    const QString title = QString::fromStdString(project.title);
    return title.startsWith("edit ") ? title.mid(5).toInt() : 0;
}

class Killed {
public:
    Killed(const QString& folder, int round, bool saves) {
        document = folder + QString("/crawler-%1.slabside.json").arg(round);
        log = folder + QString("/edits-%1").arg(round);
        EXPECT_TRUE(QFile::copy(SLABSIDE_SOURCE_DIR "/samples/moon-crawler.slabside.json", document));
        EXPECT_TRUE(QFile::setPermissions(document, QFile::ReadOwner | QFile::WriteOwner));
        before = bytesOf(document);
        m_child.setProcessChannelMode(QProcess::ForwardedChannels);
        m_child.start(QCoreApplication::applicationFilePath(),
                      {"--edit-child", document, log, saves ? "save" : "keep"});
    }
    /// Lets it work, then kills it. @return when, on the shared clock, ms
    double killAfter(int milliseconds) {
        EXPECT_TRUE(waitFor([&] { return !editsIn(log).empty(); })) << "the window never made an edit";
        QElapsedTimer clock;
        clock.start();
        EXPECT_TRUE(waitFor([&] { return clock.elapsed() >= milliseconds; }));
        const double at = sharedClock();
        m_child.kill(); // SIGKILL
        EXPECT_TRUE(waitFor([&] { return m_child.state() == QProcess::NotRunning; }));
        return at;
    }
    QString document, log;
    QByteArray before;

private:
    QProcess m_child;
};

std::uint64_t seedNow() {
    const QByteArray given = qgetenv("SLABSIDE_SEED");
    const std::uint64_t seed = given.isEmpty() ? std::random_device{}() : given.toULongLong();
    std::printf("seed %llu\n", static_cast<unsigned long long>(seed));
    return seed;
}

TEST(Kill, AtMostTwoSecondsAreLostAndTheFileIsWhole) {
    const QTemporaryDir folder;
    std::mt19937_64 random(seedNow());
    constexpr int rounds = 10;
    double worst = 0;
    for (int round = 0; round < rounds; ++round) {
        const bool saves = round % 2 == 1;
        const int after = std::uniform_int_distribution<int>(50, 3600)(random);
        Killed window(folder.path(), round, saves);
        const double killed = window.killAfter(after);
        const std::vector<Made> edits = editsIn(window.log);
        ASSERT_FALSE(edits.empty());

        const auto own = loadProject(window.document.toStdString());
        ASSERT_TRUE(own.has_value()) << "round " << round << ": the builder's file is damaged";
        EXPECT_TRUE(saves || bytesOf(window.document) == window.before) << "round " << round;
        int kept = numberOf(*own);
        const auto left = Autosave::leftBehind();
        ASSERT_LE(left.size(), 1U);
        for (const Recovered& recovered : left) {
            EXPECT_EQ(recovered.original, QFileInfo(window.document).absoluteFilePath());
            const auto project = Autosave::read(recovered);
            ASSERT_TRUE(project.has_value()) << "round " << round << ": the recovery file is damaged";
            kept = std::max(kept, numberOf(*project));
            Autosave::remove(recovered);
        }
        // The first edit that is lost must be younger than two seconds.
        double lost = 0;
        for (const Made& made : edits)
            if (made.number > kept) {
                lost = killed - made.at;
                break;
            }
        worst = std::max(worst, lost);
        EXPECT_LE(lost, 2000) << "round " << round << ", killed " << after << " ms after the first edit of "
                              << edits.size() << ", kept " << kept;
    }
    std::printf("%d rounds, oldest lost edit %.0f ms before the kill\n", rounds, worst);
}

TEST(Kill, TheNextWindowOffersTheWorkAndBringsItBackUnsaved) {
    const QTemporaryDir folder;
    Killed gone(folder.path(), 0, false);
    gone.killAfter(2500);
    const auto left = Autosave::leftBehind();
    ASSERT_EQ(left.size(), 1U);
    const auto work = Autosave::read(left.front());
    ASSERT_TRUE(work.has_value());

    MainWindow window;
    window.start(SLABSIDE_SOURCE_DIR "/samples/moon-crawler.slabside.json");
    window.show();
    ASSERT_TRUE(window.notice()->isVisible());
    EXPECT_TRUE(window.notice()->words().contains(left.front().title))
        << window.notice()->words().toStdString();
    for (auto* button : window.notice()->findChildren<QPushButton*>())
        if (button->text() == "Bring it back") QTest::mouseClick(button, Qt::LeftButton);
    EXPECT_EQ(window.session()->project(), *work);
    EXPECT_EQ(window.file()->path(), QFileInfo(gone.document).absoluteFilePath());
    EXPECT_FALSE(window.session()->history().isSaved()) << "closing must ask before this work is gone";
    EXPECT_EQ(window.file()->stateWords(), "unsaved changes");
    // It is as safe as before: a second crash does not lose what the first one did not.
    window.file()->autosave()->flush();
    EXPECT_TRUE(QFileInfo::exists(window.file()->autosave()->file()));
    EXPECT_EQ(bytesOf(gone.document), gone.before) << "the file changes only when saved";
    ASSERT_TRUE(window.file()->save());
    const auto saved = loadProject(gone.document.toStdString());
    ASSERT_TRUE(saved.has_value());
    EXPECT_EQ(*saved, *work);
}

} // namespace
} // namespace slab::ui::test
