#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "viewer/modes/shell/ground_state.hpp"
#include "viewer/modes/shell/putt_editor.hpp"
#include "viewer/modes/shell/scrolled_panel.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/practice/review/review.hpp"
#include "viewer/text/aim.hpp"

namespace dewtrail {

/// How Review begins.
struct ReviewStart {
    Setup setup{};  ///< until a putt is brought along
    double usual_past_m = dewtrail::usual_past_m;
    Spread spread{};
    std::filesystem::path memory_folder{};  ///< where putts are logged
};

/// A real putt as it is entered: undo brings it back.
struct RealPutt {
    Setup setup{};
    std::optional<SaidAim> aim{};  ///< meant; none: the read's own
    std::optional<double> level_putt_m{};
    std::optional<PlayerPoint> end{};  ///< where it stopped
    bool holed = false;
};

/// The mode Review: where did the ball stop, and what most likely went wrong? Several putts of one
/// green are reviewed together.
class ReviewMode final : public Mode {
  public:
    ReviewMode(Shell& shell, ReviewStart start);

    ModeName name() const override { return ModeName::review; }
    Commands commands() override;
    Layout lay_out() const override;
    void laid_out() override { fit_camera(); }
    void prepare(const Look& look, Picture& ground) override;
    void paint(const Canvas& canvas) const override;
    std::optional<Drag> grab(const Grip& grip) override;
    std::vector<Value> fields() override;
    bool advance(double seconds) override;
    std::any document() const override { return putt_; }
    void put_back(const std::any& putt) override;
    void dropped() override { fit_camera(); }
    void arrived(const std::optional<Setup>& putt) override;
    std::optional<Setup> putt_at_hand() const override { return putt_.setup; }
    Surround surround() const override;
    Pages pages() const override;
    std::string as_text() const override;
    void spread_changed(const Spread& spread) override {
        start_.spread = spread;
        doubts_ = doubts_of(spread);
        work_out(Ground::same);
    }
    bool wheel(double clicks, const Vec2& px, Held held) override;
    State state() const override;
    Places places() const override;
    std::optional<FocusStop> first_value() const override;

    const RealPutt& putt() const { return putt_; }
    const std::optional<Split>& split() const { return split_; }
    std::size_t kept() const { return kept_.size(); }

  private:
    // review_mode.cpp: the putt, and what follows from it
    enum class Ground { same, changed };
    void change(const std::function<void(RealPutt&)>& edit, const std::string& name,
                Ground ground = Ground::same);
    void work_out(Ground ground);
    void review();
    void keep();
    void fit_camera();
    SaidAim meant_aim() const;
    double meant_aim_m() const { return meant_aim().offset_m; }
    double meant_level_putt_m() const;
    LoggedPutt logged() const;
    std::vector<std::string> sentences() const;
    std::string end_words() const;  ///< '2 ft past, 6 in left'

    // review_input.cpp
    void move_end(double along_m, double across_m);
    void put_end(const PlayerPoint& end);
    void type_end(const std::string& text);

    // review_picture.cpp
    std::vector<Vec2> struck_px(double time_s) const;
    void draw_end(Picture& picture, const Look& look) const;
    class NotePart;

    ReviewStart start_;
    PuttEditor editor_;
    Memory memory_;
    RealPutt putt_;
    std::optional<PlayedPutt> played_;  ///< the one at hand, where it can be reviewed
    std::vector<PlayedPutt> kept_;      ///< of this sitting, reviewed together with the one at hand
    Solved read_;
    Read meant_;
    Trail meant_trail_, struck_trail_;
    std::optional<Split> split_;
    Doubts doubts_;
    Reviewed means_;
    std::string trouble_;  ///< why there is no split
    PlanCamera camera_;
    PlanPicture plan_;
    std::optional<GroundState> ground_;
    std::vector<Label> labels_;
    ScrolledPanel note_;
};

/// What can be typed in Review beside the fields of the putt, by Target::index of What::answer.
inline constexpr int review_aim = 0, review_pace = 1, review_end = 2;

}  // namespace dewtrail
