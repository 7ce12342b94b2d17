// Which parts of the picture's strip are seen where there is no room for all of them.
#include "ui/board/board_canvas.h"
#include "ui/board/picture_layer.h"
#include "ui/board/picture_strip.h"
#include "ui/paint/flow_layout.h"
#include "ui/theme/card.h"
#include <QToolButton>
#include <algorithm>

namespace slab::ui {

namespace {

constexpr int mostRows = 2; // beside the row of words; a strip that is higher takes the sheet's room

int widthOf(const QWidget* part) {
    return part->sizeHint().expandedTo(part->minimumSize()).boundedTo(part->maximumSize()).width();
}

} // namespace

void PictureStrip::buildSections() {
    const std::pair<const char*, const char*> words[] = {
        {"Place", "Where the picture lies and how strong it shows."},
        {"Scale", "What brings the picture to scale and turns it level."},
        {"Rectangle", "Makes a photo that was taken at an angle true."},
        {"Use it", "Crop it, cut it into views, mark it, measure on it, hide it, take it off."},
        {"Depth", "How far what you measure lies before the sheet, and how far the camera was."}};
    for (const auto& [name, tip] : words) {
        auto* one = new QToolButton;
        one->setText(name);
        one->setCheckable(true);
        explain(one, name, tip);
        m_row->addWidget(one);
        const std::size_t index = m_sections.size();
        connect(one, &QToolButton::clicked, this, [this, index] { open(index); });
        m_sections.push_back({one, {}});
    }
}

void PictureStrip::startSection(SectionIndex section) {
    m_row->startGroup();
    m_adding = section;
}

void PictureStrip::add(QWidget* part) {
    m_row->addWidget(part);
    m_sections[m_adding].parts << part;
}

QList<QToolButton*> PictureStrip::sectionButtons() const {
    QList<QToolButton*> all;
    for (const Section& section : m_sections) all << section.button;
    return all;
}

int PictureStrip::rowsOfAll() const {
    constexpr int across = 6; // px between two parts
    int rows = 1, x = m_heading->width() + across;
    for (const Section& section : m_sections) {
        int wide = 0;
        for (const QWidget* part : section.parts)
            if (part != m_accept) wide += widthOf(part) + across;
        if (x > 0 && x + wide > width() + across) {
            ++rows;
            x = 0;
        }
        x += wide;
        rows += x / std::max(1, width() + across + 1);
    }
    return rows;
}

void PictureStrip::fold() {
    const bool folded = rowsOfAll() > mostRows;
    const PlacedPicture* placed = m_canvas->pictures().at(m_canvas->desk().choice().picture);
    const bool changed = placed && placed->state == PlacedPicture::State::changed;
    for (std::size_t i = 0; i < m_sections.size(); ++i) {
        m_sections[i].button->setVisible(folded);
        m_sections[i].button->setChecked(i == m_open);
        for (QWidget* part : m_sections[i].parts)
            part->setVisible((!folded || i == m_open) && (part != m_accept || changed));
    }
}

void PictureStrip::open(std::size_t section) {
    m_open = section;
    fold();
}

void PictureStrip::reveal(const QWidget* part) {
    for (std::size_t i = 0; i < m_sections.size(); ++i)
        if (m_sections[i].parts.contains(const_cast<QWidget*>(part))) open(i);
}

void PictureStrip::openWhatIsNeeded(int index) {
    const PlacedPicture* placed = m_canvas->pictures().at(index);
    const std::pair now(index, placed ? static_cast<int>(placed->state) : -1);
    if (placed && now != m_seen) {
        using State = PlacedPicture::State;
        const bool file = placed->state == State::missing || placed->state == State::unreadable ||
                          placed->state == State::changed;
        if (file)
            m_open = useSection;
        else if (placed->scale == PlacedPicture::Scale::none)
            m_open = scaleSection;
        m_seen = now;
    }
    fold();
}

} // namespace slab::ui
