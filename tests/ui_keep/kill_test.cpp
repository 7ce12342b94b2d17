// Killed at a random moment of editing, the work that comes back is one that the builder had, and not an old
// one. SLABSIDE_KILLS=200 asks for so many kills; without it few are made: without a window as many as fit in
// a third of a minute, of the real window ten.
#include "core/document/file.h"
#include "tests/ui_keep/keep_child.h"
#include "ui/session/autosave.h"
#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <atomic>
#include <csignal>
#include <cstdlib>
#include <gtest/gtest.h>
#include <map>
#include <mutex>
#include <random>
#include <spawn.h>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

namespace slab::ui::test {
namespace {

constexpr int fewest = 12;
constexpr double longest = 17000; ///< ms after which no new round begins, unless a number is asked for
constexpr int lanes = 4;

QByteArray bytesOf(const QString& path) {
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

struct Logged {
    std::map<int, QByteArray> planned; ///< hash by step
    std::map<int, double> done;        ///< ms by step
    /// The latest step that left the document so; -1 = none did.
    [[nodiscard]] int latest(const QByteArray& hash) const {
        int step = -1;
        for (const auto& [number, is] : planned)
            if (is == hash) step = number;
        return step;
    }
};

Logged readLog(const QString& path) {
    Logged all;
    for (const QByteArray& line : bytesOf(path).split('\n')) {
        const QList<QByteArray> words = line.split(' ');
        if (words.size() != 3) continue;
        if (words[0] == "p") all.planned[words[1].toInt()] = words[2];
        if (words[0] == "d") all.done[words[1].toInt()] = words[2].toDouble();
    }
    return all;
}

/// One program that edits, in a home of its own.
class Victim {
public:
    /// @param kind  "none", "all" or "window": see keepChild()
    Victim(const QString& home, std::uint64_t seed, const char* kind)
        : document(home + "/body.slabside.json"), log(home + "/log"),
          recovery(home + "/data/slabside-test/slabside-test/recovery") {
        QFile::remove(log); // of the one before in the same home
        QDir().mkpath(home);
        QFile::copy(SLABSIDE_SOURCE_DIR "/samples/harbour-fire-boat.slabside.json", document);
        QFile::setPermissions(document, QFile::ReadOwner | QFile::WriteOwner);
        std::vector<std::string> words = {QCoreApplication::applicationFilePath().toStdString(),
                                          "--keep-child",
                                          document.toStdString(),
                                          log.toStdString(),
                                          std::to_string(seed),
                                          kind};
        std::vector<std::string> places = {
            "HOME=" + home.toStdString(), "XDG_DATA_HOME=" + home.toStdString() + "/data",
            "XDG_CONFIG_HOME=" + home.toStdString() + "/config",
            "XDG_CACHE_HOME=" + home.toStdString() + "/cache", "QT_QPA_PLATFORM=offscreen"};
        std::vector<char*> argv, env;
        for (std::string& word : words) argv.push_back(word.data());
        for (std::string& place : places) env.push_back(place.data());
        argv.push_back(nullptr);
        env.push_back(nullptr);
        if (::posix_spawn(&m_child, argv[0], nullptr, nullptr, argv.data(), env.data()) != 0) m_child = -1;
    }
    ~Victim() { kill(); }
    Victim(const Victim&) = delete;
    Victim& operator=(const Victim&) = delete;

    /// Waits until its log says so. @return false if the program never began
    [[nodiscard]] bool waitFor(const char* line) const {
        for (int i = 0; i < 12000; ++i) {
            if (('\n' + bytesOf(log)).contains(line)) return true;
            ::usleep(10000);
        }
        return false;
    }
    /// @return the moment, on the shared clock
    double kill() {
        if (m_child <= 0) return 0;
        const double at = sharedClock();
        ::kill(m_child, SIGKILL);
        int status = 0;
        ::waitpid(m_child, &status, 0);
        if (WIFEXITED(status)) ADD_FAILURE() << "the program ended by itself, status " << WEXITSTATUS(status);
        if (WIFSIGNALED(status) && WTERMSIG(status) != SIGKILL)
            ADD_FAILURE() << "the program broke down, signal " << WTERMSIG(status);
        m_child = -1;
        return at;
    }
    QString document, log, recovery;

private:
    pid_t m_child = -1;
};

struct Tally {
    std::mutex mutex;
    int rounds = 0, recovered = 0, fromFile = 0, behindFile = 0;
    double worst = 0, sum = 0;
    std::size_t steps = 0;
};

/// What the builder finds afterwards, against what the log says. `offered` becomes the hash of what the next
/// window has to bring back; empty = nothing.
void judge(const Victim& victim, double killed, int round, Tally& tally, QByteArray& offered) {
    const Logged log = readLog(victim.log);
    const auto own = loadProject(victim.document.toStdString());
    ASSERT_TRUE(own.has_value()) << "round " << round << ": the builder's file is damaged";
    int kept = log.latest(hashOf(*own));
    EXPECT_GE(kept, 0) << "round " << round << ": the builder's file is none of the states";
    const int saved = kept;
    offered.clear();
    const auto left = Autosave::leftBehind(victim.recovery);
    ASSERT_LE(left.size(), 2U) << "the one that is brought back, and what it is kept in now";
    bool behind = false;
    for (const Recovered& one : left) {
        const auto work = Autosave::read(one);
        ASSERT_TRUE(work.has_value()) << "round " << round << ": the recovery file is damaged";
        const QByteArray hash = hashOf(*work);
        const int step = log.latest(hash);
        if (offered.isEmpty()) offered = hash; // the newest comes first
        EXPECT_GE(step, 0) << "round " << round << ": what comes back is none of the states";
        behind = step < saved;
        kept = std::max(kept, step);
        EXPECT_EQ(one.original, victim.document);
    }
    double lost = 0;
    for (const auto& [step, at] : log.done)
        if (step > kept) {
            lost = killed - at;
            break;
        }
    EXPECT_LE(lost, 2000) << "round " << round << ": kept step " << kept << " of " << log.done.size();
    const std::lock_guard lock(tally.mutex);
    ++tally.rounds;
    tally.recovered += left.empty() ? 0 : 1;
    tally.fromFile += kept == saved ? 1 : 0;
    tally.behindFile += behind ? 1 : 0;
    tally.worst = std::max(tally.worst, lost);
    tally.sum += lost;
    tally.steps += log.done.size();
}

std::uint64_t seedNow() {
    const char* given = std::getenv("SLABSIDE_SEED");
    const std::uint64_t seed = given ? std::strtoull(given, nullptr, 10) : std::random_device{}();
    std::printf("seed %llu\n", static_cast<unsigned long long>(seed));
    return seed;
}

void tell(const Tally& tally) {
    std::printf(
        "%d kills, %zu steps; work in a recovery file %d times, newest in the builder's own file %d times "
        "(recovery file older than it: %d); oldest lost step %.0f ms before the kill, mean %.0f ms\n",
        tally.rounds, tally.steps, tally.recovered, tally.fromFile, tally.behindFile, tally.worst,
        tally.sum / std::max(tally.rounds, 1));
}

TEST(Keep, WhatComesBackAfterAKillIsAStateThatWasAndNotAnOldOne) {
    const QTemporaryDir folder;
    const std::uint64_t seed = seedNow();
    const char* asked = std::getenv("SLABSIDE_KILLS");
    const int most = asked ? std::atoi(asked) : 200;
    const double begun = sharedClock();
    std::atomic<int> next = 0;
    Tally tally;
    const auto lane = [&] {
        for (int round = next++; round < most; round = next++) {
            if (!asked && round >= fewest && sharedClock() - begun > longest) return;
            std::mt19937_64 random(seed + static_cast<std::uint64_t>(round));
            Victim victim(folder.path() + "/" + QString::number(round), random(),
                          round % 8 == 0 ? "all" : "none");
            ASSERT_TRUE(victim.waitFor("\np 1 ")) << "round " << round;
            ::usleep(static_cast<useconds_t>(random() % 2600000));
            const double killed = victim.kill();
            QByteArray offered;
            judge(victim, killed, round, tally, offered);
        }
    };
    {
        std::vector<std::jthread> all;
        for (int i = 0; i < lanes; ++i) all.emplace_back(lane);
    }
    EXPECT_GE(tally.rounds, asked ? most : fewest);
    EXPECT_GT(tally.recovered, 0);
    tell(tally);
}

/// Every window begins where the one before was killed: it brings the work back, goes on, and is killed.
TEST(Keep, TheRealWindowKilledAtAnyMomentOffersTheWorkAndGoesOn) {
    const QTemporaryDir folder;
    const std::uint64_t seed = seedNow();
    const char* asked = std::getenv("SLABSIDE_KILLS");
    constexpr int few = 10, homes = 2;
    const int most = asked ? std::atoi(asked) : few;
    std::atomic<int> next = 0;
    Tally tally;
    const auto lane = [&](int home) {
        QByteArray offered;
        for (int round = next++; round < most; round = next++) {
            std::mt19937_64 random(seed + static_cast<std::uint64_t>(round));
            Victim victim(folder.path() + "/" + QString::number(home), random(), "window");
            ASSERT_TRUE(victim.waitFor("\np 0 ")) << "round " << round;
            const Logged log = readLog(victim.log);
            EXPECT_EQ(log.planned.count(1) ? log.planned.at(1) : QByteArray(), offered)
                << "round " << round << ": what is brought back is not what the killed one left";
            ::usleep(static_cast<useconds_t>(random() % 4000000));
            judge(victim, victim.kill(), round, tally, offered);
        }
    };
    {
        std::vector<std::jthread> all;
        for (int i = 0; i < homes; ++i) all.emplace_back(lane, i);
    }
    EXPECT_EQ(tally.rounds, most);
    tell(tally);
}

} // namespace
} // namespace slab::ui::test
