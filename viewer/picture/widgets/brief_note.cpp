#include "viewer/picture/widgets/brief_note.hpp"

#include <cmath>

#include "viewer/picture/symbols.hpp"
#include "viewer/picture/widgets/note_pen.hpp"
#include "viewer/text/english.hpp"
#include "viewer/text/figures.hpp"

namespace dewtrail {
namespace {

class BriefNotePen : private NotePen {
  public:
    explicit BriefNotePen(const Canvas& canvas) : NotePen(canvas) {}

    void paint(const Note& note) {
        open_panel();
        y_ += u(18);
        const AccountRow* aim = note.account.row(Glyph::aim);
        line(Glyph::aim, aim ? aim->words : note.account.heading, 34, 38);
        if (aim)
            write_within(text_w(), aim->second, Face::sans, 17, text_x(), y_ += type(23), c_.ink2);
        if (const AccountRow* pace = note.account.row(Glyph::stand_in))
            line(Glyph::stand_in, pace->words, 25, 36);
        write_within(text_w(), more(note), Face::sans, 16, text_x(), panel_.bottom() - type(12),
                     c_.ink2);
        picture_.push_back(Clip{});
        target(What::note_edge, 0, panel_);
    }

  private:
    void line(Glyph glyph, const std::string& words, double size, double step) {
        y_ += type(step);
        draw_glyph(picture_, glyph, {x_ + u(8), y_ - type(0.33 * size)}, look_);
        write_within(text_w(), words, Face::book, size, text_x(), y_, c_.ink);
    }

    /// 'apex · finish · room · about 1 in 7'.
    static std::string more(const Note& note) {
        std::string all;
        for (const AccountRow& row : note.account.rows) {
            if (row.glyph == Glyph::aim || row.glyph == Glyph::stand_in) continue;
            const std::string words = uncapital(row.glyph == Glyph::odds ? row.words : row.name);
            if (!words.empty()) all += (all.empty() ? "" : " · ") + words;
        }
        return all;
    }
};

}  // namespace

void draw_brief_note(const Canvas& canvas, const Note& note) {
    BriefNotePen(canvas).paint(note);
}

}  // namespace dewtrail
