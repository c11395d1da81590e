#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "viewer/comparison/comparison.hpp"
#include "viewer/comparison/played_putts.hpp"
#include "viewer/modes/shell/history.hpp"
#include "viewer/modes/shell/mode.hpp"
#include "viewer/picture/labels.hpp"
#include "viewer/putt/playback.hpp"
#include "viewer/putt/trail.hpp"

namespace dewtrail {

/// How Compare begins.
struct CompareStart {
    double usual_past_m = dewtrail::usual_past_m;
    Spread spread{};
    std::string show{};  ///< a ready demonstration; empty: uphill and downhill
};

/// What is compared, and what was guessed of it: everything that undo brings back.
struct Compared {
    std::string show{};          ///< a ready demonstration, which brings its own putts; or empty
    std::vector<Setup> putts{};  ///< two to four, where nothing is shown
    std::vector<std::optional<double>> guesses{};  ///< aims, metres, right positive
};

/// The mode Compare: two to four putts on one ball-hole line, rolled from the same instant. One
/// guesses the aims, rolls, sees the picture freeze when the first drops, releases it, and swaps
/// the aims.
class CompareMode final : public Mode {
  public:
    CompareMode(const Appearance& appearance, CompareStart start);

    ModeName name() const override { return ModeName::compare; }
    void pointer_moved(const Vec2& px, Held held) override;
    void pointer_pressed(const Vec2& px, Button button, Held held, bool twice = false) override;
    void pointer_released(const Vec2& px) override;
    void wheel(double clicks, const Vec2& px, Held held) override;
    void press(KeyPress pressed) override;
    void typed(const std::string& text) override;
    bool advance(double seconds) override;
    Frame frame(const TextWidth& width) override;
    std::optional<Typing> typing() const override;
    bool hand_cursor() const override;
    State state() const override;
    std::vector<std::pair<std::string, Vec2>> places() const override;

    const Comparison& comparison() const { return comparison_; }
    const Compared& compared() const { return compared_; }
    const Playback& playback() const { return playback_; }
    bool frozen() const;

  private:
    enum class Handle { none, guess, ruler, time };

    void relayout() override;
    const HelpLines& help() const override;
    std::vector<std::pair<std::string, std::string>> pages() const override;
    std::shared_ptr<const PrintedComparison> comparison_to_print() const override;
    void row_chosen(What what, int index) override;
    void arrived(const std::optional<Setup>& putt) override;
    std::optional<Setup> putt_at_hand() const override;

    // compare_mode.cpp: what is compared, and its rolls
    void change(Compared compared, const std::string& name);
    void edit_putt(const std::function<void(Setup&)>& edit, const std::string& name);
    void make_own();
    void work_out();
    void load_trails();
    void swap();
    void roll();
    void undo(bool back);
    void add_putt();
    void take_putt_away();
    const ComparedPutt& shown_putt(std::size_t i) const;
    void work_out_chances();
    std::vector<std::string> sentences() const;
    std::string as_text() const;
    int step() const;
    bool told() const;  ///< false while the aims are guessed

    // compare_input.cpp
    void click(const Target& target, bool twice);
    void drag_to(const Vec2& px);
    void step_field(Field field, double steps, bool fine);
    void set_stretch(int way);
    bool press_letter(KeyPress pressed);

    // compare_map.cpp: the putts laid on each other
    Rect map() const;
    Vec2 px_of(const PlayerPoint& from_hole) const;
    PlayerPoint from_hole(std::size_t i, const Vec2& place) const;
    double longest_m() const;
    double px_per_m() const;
    void draw_map(Picture& picture, const Look& look);
    void draw_trails(Picture& picture, const Look& look);
    void draw_aims(Picture& picture, const Look& look);
    void add_rest_labels(std::vector<Label>& labels, const Look& look);
    void draw_balls(Picture& picture, const Look& look);

    // compare_panel.cpp: table, sentence, buttons
    Rect panel() const;
    void draw_panel(Picture& picture, const Look& look);

    CompareStart start_;
    Compared compared_;
    Comparison comparison_;
    std::array<std::string, 2> say_;
    std::string title_;
    std::vector<PlayedPutts> played_;
    std::optional<std::array<ComparedPutt, 2>> swapped_putts_;
    std::vector<Trail> trails_;
    std::vector<std::optional<double>>
        chance_;  ///< to hole each stroke shown, once they are asked for
    Playback playback_;
    bool swapped_ = false, released_ = false, rolled_ = false;
    bool chances_ = false, graphs_ = false, detail_ = false;
    double freeze_s_ = -1;  ///< when the first drops while another rolls; below 0: never
    int stretch_ = 2;
    std::size_t chosen_ = 0;
    History<Compared> history_;
    Handle handle_ = Handle::none;
    Field ruler_ = Field::distance;
    Compared before_drag_;
};

}  // namespace dewtrail
