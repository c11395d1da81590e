#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "viewer/modes/shell/history.hpp"
#include "viewer/modes/shell/mode.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/practice/habits/practice_words.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/practice/review/review.hpp"
#include "viewer/putt/playback.hpp"

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
    std::optional<double> aim_m, level_putt_m;  ///< meant; none: the read's own
    std::optional<PlayerPoint> end{};           ///< where it stopped
    bool holed = false;
};

/// The mode Review: where did the ball stop, and what most likely went wrong? Several putts of one
/// green are reviewed together.
class ReviewMode final : public Mode {
  public:
    ReviewMode(const Appearance& appearance, ReviewStart start);

    ModeName name() const override { return ModeName::review; }
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

    const RealPutt& putt() const { return putt_; }
    const std::optional<Split>& split() const { return split_; }
    std::size_t kept() const { return kept_.size(); }

  private:
    enum class Handle { none, end, ruler, time };

    void relayout() override;
    const HelpLines& help() const override;
    std::vector<std::pair<std::string, std::string>> pages() const override;
    void arrived(const std::optional<Setup>& putt) override;
    std::optional<Setup> putt_at_hand() const override { return putt_.setup; }

    // review_mode.cpp: the putt, and what follows from it
    enum class Ground { same, changed };
    void change(RealPutt putt, const std::string& name, Ground ground = Ground::changed);
    void work_out(Ground ground);
    void review();
    void keep();
    void undo(bool back);
    void fit_camera();
    double meant_aim_m() const;
    double meant_level_putt_m() const;
    LoggedPutt logged() const;
    std::vector<std::string> sentences() const;
    std::string as_text() const;
    std::string end_words() const;  ///< '2 ft past, 6 in left'

    // review_input.cpp
    void click(const Target& target, bool twice);
    void drag_to(const Vec2& px);
    bool press_letter(KeyPress pressed);
    void move_end(double along_m, double across_m);
    void step_field(Field field, double steps, bool fine);
    void begin_typing(int field);

    // review_picture.cpp
    void draw_green(Frame& frame, const Look& look);
    void draw_end(Picture& picture, const Look& look);
    void draw_note(Picture& picture, const Look& look);

    ReviewStart start_;
    Memory memory_;
    RealPutt putt_;
    std::optional<PlayedPutt> played_;  ///< the one at hand, where it can be reviewed
    std::vector<PlayedPutt> kept_;      ///< of this sitting, reviewed together with the one at hand
    History<RealPutt> history_;
    Solved read_;
    Read meant_;
    Trail meant_trail_, struck_trail_;
    std::optional<Split> split_;
    Doubts doubts_;
    Reviewed means_;
    std::string trouble_;  ///< why there is no split
    Playback playback_;
    PlanCamera camera_;
    PlanPicture plan_;
    std::vector<Label> labels_;
    Handle handle_ = Handle::none;
    Field ruler_ = Field::distance;
    RealPutt before_drag_;
};

/// What can be typed in Review beside the fields of the putt, by Target::index of What::answer.
inline constexpr int review_aim = 0, review_pace = 1, review_end = 2;

}  // namespace dewtrail
