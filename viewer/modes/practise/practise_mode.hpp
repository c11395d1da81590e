#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "viewer/modes/shell/history.hpp"
#include "viewer/modes/shell/mode.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/practice/drill/drill_session.hpp"
#include "viewer/practice/drill/slope_drill.hpp"
#include "viewer/practice/habits/progress.hpp"
#include "viewer/putt/playback.hpp"
#include "viewer/text/aim.hpp"

namespace dewtrail {

/// How Practise begins.
struct PractiseStart {
    std::filesystem::path memory_folder;
    std::vector<std::filesystem::path> green_folders{};
    Player player{};
    LessonPlan plan{};  ///< of the first session; later ones take its ranges
};

/// What is shown of the ground before the answer: its figures as well, its contours, or nothing but
/// what the eye sees from behind the ball.
enum class GroundHelp { told, contours, eye_only };

/// What the player says: where to aim and how hard.
struct Said {
    double aim_m = 0, level_putt_m = 0;
    std::optional<bool> sure;
    bool operator==(const Said&) const = default;
};

/// The mode Practise: a putt is asked, the player answers, the ball rolls so, and the truth
/// follows. Every answer is remembered before its ball is shown at rest.
class PractiseMode final : public Mode {
  public:
    /// Throws as Memory does.
    PractiseMode(const Appearance& appearance, PractiseStart start);

    ModeName name() const override { return ModeName::practise; }
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

    enum class Stage { asking, rolling, told, over, slope };
    Stage stage() const { return stage_; }
    const Said& said() const { return said_; }
    const DrillSession& session() const { return *session_; }

  private:
    enum class View { plan, eye, progress };
    enum class Handle { none, aim, pace, time };

    void relayout() override;
    const HelpLines& help() const override;
    std::vector<std::pair<std::string, std::string>> pages() const override;
    void row_chosen(What what, int index) override;
    std::optional<Setup> putt_at_hand() const override;

    // practise_mode.cpp: state and time
    void begin_session(LessonPlan plan);
    void next_putt();
    void roll_it();
    void go_on();
    void vary();
    void open_sessions();
    void begin_slope();
    void typed_slope(int index, const std::string& text);
    void change(const Said& said, const std::string& name);
    void undo(bool back);
    void fit_camera();
    bool gives_aim() const { return session_->plan().drill == Drill::pace; }
    bool gives_pace() const { return session_->plan().drill == Drill::line; }
    bool told() const { return stage_ == Stage::told && session_->marked().back().answer.told; }
    double truth_share() const;
    double most_pace_m() const;
    AimUnit aim_unit() const;

    // practise_input.cpp
    void click(const Target& target, bool twice);
    void begin_typing(int field);
    bool press_answer(KeyPress pressed);
    void step_aim(double steps, bool fine);
    void step_pace(double steps, bool fine);
    void drag_to(const Vec2& px);
    std::optional<Vec2> green_at(const Vec2& px) const;
    std::optional<Vec2> px_of(const Vec2& green) const;
    Rect pace_ruler() const;
    void choose_view(int index);
    std::string as_text() const;

    // practise_picture.cpp
    void draw_green(Frame& frame, const Look& look);
    void draw_answer(Picture& picture, const Look& look);
    void draw_rail(Picture& picture, const Look& look);
    void draw_played(Picture& picture, const Look& look);
    void draw_names(Picture& picture, const Look& look);
    void draw_pace(Picture& picture, const Look& look);
    void draw_setting(Picture& picture, const Look& look);
    const Progress& progress();
    void draw_slope_drill(Picture& picture, const Look& look);
    void draw_progress_view(Picture& picture, const Look& look);
    Solved seen() const;
    std::vector<Rect> player_boxes(const Look& look) const;

    PractiseStart start_;
    Memory memory_;
    std::optional<DrillSession> session_;
    Stage stage_ = Stage::over;
    View view_ = View::plan;
    GroundHelp help_ = GroundHelp::contours;
    Setup setup_;
    Solved truth_;
    Trail truth_trail_, played_trail_;
    Said said_;
    History<Said> history_;
    Playback playback_;
    double told_s_ = 0;  ///< since the ball came to rest
    PlanCamera camera_;
    EyeCamera eye_;
    PlanPicture plan_;
    std::vector<Label> labels_;
    std::vector<Rect> rail_boxes_;  ///< numbers of the cups, as drawn last
    Handle handle_ = Handle::none;
    Said before_drag_;
    std::size_t ground_key_ = 0;
    SlopeSpot spot_;                                  ///< of the slope drill
    std::string slope_words_;                         ///< on the spot before
    bool help_chosen_ = false, view_chosen_ = false;  ///< by the player, for this session
    std::optional<Progress> progress_;                ///< as seen last
};

/// What stands in the note of Practise.
struct PractiseNote {
    const DrillSession& session;
    PractiseMode::Stage stage;
    const Said& said;
    const Solved& truth;
    double truth_share = 0;  ///< how much of the truth has come into sight, 0 to 1
    const SlopeSpot& spot;
    AimUnit aim_unit = AimUnit::words;
    std::optional<int> typing;
};
/// What can be typed in Practise, by Target::index of What::answer.
inline constexpr int answer_aim = 0, answer_pace = 1, answer_slope = 10;

/// Draws the note into the layout's panel.
void draw_practise_note(Picture& picture, Targets& targets, const PractiseNote& note,
                        const Attention& attention, const Look& look);

}  // namespace dewtrail
