#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "viewer/comparison/comparison.hpp"
#include "viewer/comparison/played_putts.hpp"
#include "viewer/modes/shell/putt_editor.hpp"
#include "viewer/modes/shell/scrolled_panel.hpp"
#include "viewer/picture/labels.hpp"
#include "viewer/putt/trail.hpp"
#include "viewer/text/aim.hpp"

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
    std::vector<std::optional<SaidAim>> guesses{};
};

/// The mode Compare: two to four putts on one ball-hole line, rolled from the same instant. One
/// guesses the aims, rolls, sees the picture freeze when the first drops, releases it, and swaps
/// the aims.
class CompareMode final : public Mode {
  public:
    CompareMode(Shell& shell, CompareStart start);

    ModeName name() const override { return ModeName::compare; }
    Commands commands() override;
    Layout lay_out() const override;
    /// Sentences and names are told anew in other units.
    void laid_out() override;
    void prepare(const Look& look, Picture& ground) override;
    void paint(const Canvas& canvas) const override;
    std::optional<Drag> grab(const Grip& grip) override;
    std::vector<Value> fields() override;
    bool advance(double seconds) override;
    std::any document() const override { return compared_; }
    void put_back(const std::any& compared) override;
    void arrived(const std::optional<Setup>& putt) override;
    /// A ready demonstration, by its key.
    void begin(const std::string& demonstration) override;
    std::optional<Setup> putt_at_hand() const override;
    Surround surround() const override { return {{}, 0, title_}; }
    Pages pages() const override;
    std::shared_ptr<const PrintedComparison> comparison_to_print() const override;
    std::string as_text() const override;
    bool wheel(double clicks, const Vec2& px, Held held) override;
    void scrubbed() override { released_ = true; }
    void spread_changed(const Spread& spread) override {
        start_.spread = spread;
        work_out_chances();
    }
    State state() const override;
    std::optional<FocusStop> first_value() const override {
        return FocusStop::on(What::putt, static_cast<int>(chosen_));
    }
    Places places() const override { return {{"hole", px_of({0, 0})}}; }

    const Comparison& comparison() const { return comparison_; }
    const Compared& compared() const { return compared_; }
    bool frozen() const;

  private:
    // compare_mode.cpp: what is compared, and its rolls
    void change(const std::function<void(Compared&)>& edit, const std::string& name);
    void edit_putt(const std::function<void(Setup&)>& edit, const std::string& name);
    Compared own() const;
    void show(int demonstration);
    void work_out();
    void tell();
    void load_trails();
    void swap();
    void roll();
    void add_putt();
    void take_putt_away();
    const ComparedPutt& shown_putt(std::size_t i) const;
    void work_out_chances();
    std::vector<std::string> sentences() const;
    int step() const;
    bool told() const { return shown_; }  ///< false while the aims are guessed
    bool guessed() const;

    // compare_input.cpp
    void choose(std::size_t putt);
    void set_guess(const SaidAim& aim);
    void set_stretch(int way);
    double fine_m() const;

    // compare_map.cpp: the putts laid on each other
    Rect map() const;
    Vec2 px_of(const PlayerPoint& from_hole) const;
    PlayerPoint from_hole(std::size_t i, const Vec2& place) const;
    std::vector<Vec2> trail_px(std::size_t i, double time_s) const;
    double longest_m() const;
    double px_per_m() const;
    void paint_map(const Canvas& canvas) const;
    void draw_trails(Picture& picture, const Look& look) const;
    void draw_aims(Picture& picture, const Look& look) const;
    void add_rest_labels(std::vector<Label>& labels, const Look& look) const;
    void draw_balls(Picture& picture, const Look& look) const;
    std::optional<Vec2> apex_px() const;

    // compare_panel.cpp: table, sentence, buttons
    class Panel;
    Rect panel() const;

    CompareStart start_;
    PuttEditor editor_;  ///< of the chosen putt
    Compared compared_;
    Comparison comparison_;
    Units told_in_;  ///< the words of the comparison
    std::array<std::string, 2> say_;
    std::string title_;
    std::vector<PlayedPutts> played_;
    std::optional<std::array<ComparedPutt, 2>> swapped_putts_;
    std::vector<Trail> trails_;
    std::vector<std::optional<double>> chance_;  ///< to hole each, once they are asked for
    bool shown_ = false;  ///< aims, trails and sentences: after a guess was rolled, or `show me`
    bool swapped_ = false, released_ = false, rolled_ = false;
    bool chances_ = false, graphs_ = false, detail_ = false;
    double freeze_s_ = -1;  ///< when the first drops while another rolls; below 0: never
    int stretch_ = usual_stretch;
    std::size_t chosen_ = 0;
    ScrolledPanel scrolled_;
};

}  // namespace dewtrail
