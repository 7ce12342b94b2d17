#pragma once
// Reference pictures under the elevations: their files, their pixels, and where they lie.
#include "core/picture/place.h"
#include "ui/board/board_desk.h"
#include <QImage>
#include <QMap>
#include <QObject>
#include <QRectF>

class QFileSystemWatcher;
class QPainter;
class QTimer;

namespace slab::ui {

class BoardCanvas;

/// Reads picture files when the document names others, when they change on the disk and when the window comes
/// back to the front; paints them.
class PictureLayer : public QObject {
    Q_OBJECT
public:
    explicit PictureLayer(BoardDesk* desk, QObject* parent = nullptr);
    /// Where relative names start: the document's folder.
    void setFolder(const QString& folder);
    [[nodiscard]] QString folder() const { return m_folder; }
    void readFiles(); ///< looks at the disk again
    [[nodiscard]] const PictureFiles& files() const { return m_files; }
    [[nodiscard]] const PictureSet& placed() const { return m_placed; }
    /// The picture of that index, or null.
    [[nodiscard]] const PlacedPicture* at(int index) const;
    [[nodiscard]] static BoardView viewOf(const PlacedPicture& picture);
    /// The uppermost picture that is seen at a place of a view; -1 = none.
    [[nodiscard]] int pictureAt(BoardView view, const Vec2& at) const;
    void paint(QPainter& painter, const BoardCanvas& canvas) const;
    /// What is marked on the chosen picture, over everything.
    void paintChosen(QPainter& painter, const BoardCanvas& canvas) const;
    [[nodiscard]] std::optional<Box2> extent() const; ///< on the sheet
    /// Lines that measure, told in words: "rail: 412 ± 3 mm".
    [[nodiscard]] QString words(int index) const;
    /// By how much it is turned from as pictured, as it is typed: "-4.76 deg", also where a level line turns
    /// it; empty = not at all.
    [[nodiscard]] QString turnText(int index) const;
    /// How far the camera was from the plane, and whence that is known.
    [[nodiscard]] QString cameraWords(int index) const;
    /// What a line's depth does to its length, or would do.
    [[nodiscard]] QString depthWords(int index, int line) const;
    /// How sure a place marked on the picture is, one standard error: "photo ± 3.1 mm"; empty beside it or
    /// without a scale.
    [[nodiscard]] QString uncertaintyAt(int index, BoardView view, const Vec2& at) const;

Q_SIGNALS:
    void changed();
    void filesRead(); ///< what lies on the disk is known anew

private:
    void refresh();
    void watchFiles();
    [[nodiscard]] QImage load(const PlacedPicture& picture) const;
    /// Halved so often that a pixel of it is about one on the screen: thin lines grow paler, not broken.
    /// @param shrunk  pixels of the picture to one of the screen
    [[nodiscard]] QImage halved(const QImage& image, double shrunk) const;
    void paintMissing(QPainter& painter, const BoardCanvas& canvas) const;
    void paintMarks(QPainter& painter, const BoardCanvas& canvas, const PlacedPicture& picture) const;

    BoardDesk* m_desk;
    QString m_folder;
    PictureFiles m_files;
    PictureSet m_placed;
    QStringList m_names;
    mutable QMap<QString, QImage> m_images;            ///< by name and hash
    mutable QMap<QPair<qint64, int>, QImage> m_halved; ///< by picture and how often
    QFileSystemWatcher* m_watch;
    QTimer* m_again; ///< to read the files
    bool m_busy = false;
};

} // namespace slab::ui
