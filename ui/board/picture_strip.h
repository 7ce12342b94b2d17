#pragma once
#include "ui/board/field_strip.h"

class QComboBox;
class QSlider;
class QToolButton;

namespace slab::ui {

class BoardCanvas;

/// The chosen reference picture: how strong it shows, to which elevation it belongs, and what is marked on
/// it.
class PictureStrip : public QWidget {
    Q_OBJECT
public:
    explicit PictureStrip(BoardCanvas* canvas, QWidget* parent = nullptr);
    [[nodiscard]] bool serves() const;
    void begin(const QString& typed);
    /// "Place", "Scale" …: shown where not everything fits in two rows; each brings its own part of the
    /// strip.
    [[nodiscard]] QList<QToolButton*> sectionButtons() const;

Q_SIGNALS:
    void done();
    void fileWanted(); ///< another file for the chosen picture

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    /// What belongs together, and the button that brings it.
    struct Section {
        QToolButton* button = nullptr;
        QList<QWidget*> parts;
    };
    enum SectionIndex : std::size_t {
        placeSection,
        scaleSection,
        rectangleSection,
        useSection,
        depthSection
    };
    void buildSections();
    void startSection(SectionIndex section);
    void add(QWidget* part);
    [[nodiscard]] int rowsOfAll() const;
    void fold();
    void open(std::size_t section);
    void reveal(const QWidget* part); ///< opens the section that has it
    void openWhatIsNeeded(int index); ///< of another picture, or one whose file has changed
    void buildPlace();
    void buildScale();
    void buildDeeds();
    void buildDepth();
    void connectAll();
    void refresh();
    void showFigures(const Picture& picture);
    void showPlace(const Picture& picture);
    void giveRoom(); ///< the words as wide as they need, within the strip
    void take(StripEntry* entry, const char* key);
    void mark(int deed);
    void cutViews();
    void swapSides();
    void level(const char* word);
    void turn();
    void acceptFile();
    /// Its figure goes with marks: before they are set, and while they are set anew, it is only kept.
    int m_figuresOf = -1; ///< the picture that the entries show
    [[nodiscard]] bool isForMarks(const StripEntry* entry) const;
    [[nodiscard]] bool isMarkedFor(const StripEntry* entry) const;
    void toggleHidden();
    [[nodiscard]] std::string at(const char* key) const;
    StripEntry* entry(const QString& label, const char* key, const QString& tip);
    QToolButton* button(const QString& words, const QString& tip, std::function<void()> deed);

    BoardCanvas* m_canvas;
    FlowLayout* m_row;
    std::vector<Section> m_sections;
    std::size_t m_open = scaleSection, m_adding = placeSection;
    std::pair<int, int> m_seen{-1, -1}; ///< picture and state of its file when a section was opened for it
    std::vector<std::pair<StripEntry*, const char*>> m_entries;
    QList<QToolButton*> m_markButtons;
    class ElidedLabel* m_heading;
    class QLabel* m_words; ///< how it is to scale, and how surely
    StripEntry *m_right = nullptr, *m_up = nullptr, *m_distance = nullptr, *m_turned = nullptr;
    StripEntry *m_width = nullptr, *m_height = nullptr;
    StripEntry *m_depth = nullptr, *m_depthError = nullptr, *m_camera = nullptr, *m_cameraError = nullptr;
    QComboBox *m_view, *m_space;
    QSlider* m_opacity;
    QToolButton *m_hide = nullptr, *m_file = nullptr, *m_accept = nullptr;
};

} // namespace slab::ui
