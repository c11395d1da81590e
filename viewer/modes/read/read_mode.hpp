#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "viewer/modes/read/room_panel.hpp"
#include "viewer/modes/shell/history.hpp"
#include "viewer/modes/shell/mode.hpp"
#include "viewer/picture/camera.hpp"
#include "viewer/picture/map/plan_picture.hpp"
#include "viewer/picture/widgets/note_picture.hpp"
#include "viewer/putt/outlook_desk.hpp"
#include "viewer/putt/solver.hpp"

namespace dewtrail {

/// How Read begins.
struct ReadStart : Appearance {
    Setup setup{};
    double usual_past_m = dewtrail::usual_past_m;
    bool eye = false, room = false, detail = false;
    bool outlook = true;                 ///< odds are worked out, in a thread of their own
    bool first_start = false;            ///< the ball rolls once by itself, and hints follow
    std::vector<NamedSpread> presets{};  ///< spreads to choose from
    /// Greens that can be opened, by name, and how; the loader throws InputError.
    std::function<std::vector<std::string>()> greens = [] { return std::vector<std::string>(); };
    std::function<std::shared_ptr<const Green>(const std::string&)> load{};
    std::shared_ptr<Solver> solver = solver_at_once();  ///< of putts that are let go
};

/// The mode Read: a putt is set up, read, looked at and rolled.
class ReadMode final : public Mode {
  public:
    explicit ReadMode(ReadStart start);

    ModeName name() const override { return ModeName::read; }
    void pointer_moved(const Vec2& px, Held held) override;
    void pointer_pressed(const Vec2& px, Button button, Held held, bool twice = false) override;
    void pointer_released(const Vec2& px) override;
    void wheel(double clicks, const Vec2& px, Held held) override;
    void press(KeyPress pressed) override;
    void typed(const std::string& text) override;
    bool advance(double seconds) override;
    void wait_until_settled() override { wait_for_outlook(); }
    /// Until the odds of the putt are there.
    void wait_for_outlook();

    Frame frame(const TextWidth& width) override;
    std::optional<Typing> typing() const override;
    bool hand_cursor() const override;

    const Setup& setup() const { return setup_; }
    const Solved& solved() const { return solved_; }
    const Playback& playback() const { return playback_; }
    const Marks& marks() const { return plan_.marks; }
    /// Odds and room of the putt, and whether they are this very putt's.
    const Outlook& outlook() const { return told_; }
    bool outlook_fresh() const;
    bool best_fresh() const;
    OddsShown odds_shown() const;
    std::string view_words() const;
    bool detail() const { return note_state_.detail; }
    bool commit() const { return commit_; }
    Vec2 drop_px() const { return plan_.drop; }
    Vec2 bar_px() const { return plan_.bar; }
    Rect slope_figure() const { return plan_.slope_figure; }
    bool solving() const { return asked_s_ >= 0; }
    bool note_shown() const { return note_shown_; }
    std::size_t undo_depth() const { return history_.undo_depth(); }
    std::size_t redo_depth() const { return history_.redo_depth(); }

  private:
    struct Drag {
        MarkId mark = MarkId::none;
        std::optional<Target> target;
        bool pan = false;
        Setup before;
        Vec2 from = Vec2::Zero();
        PlanCamera camera;
        bool moved = false;
        double start_slope = 0, start_clock = 0, start_time_s = 0;
    };

    // read_mode.cpp: state and time
    void change(const std::function<void(Setup&)>& edit, const std::string& name);
    void take(Solved solved);
    void solve_live();
    void ask_settled();
    void take_answer();
    void keep_putt();
    void swap_lines();
    void begin_easing();
    const Trail& shown_trail() const { return ease_t_ < 1 ? trail_eased_ : trail_; }
    void fit_camera(bool ease);
    void place_parts();
    void relayout() override;
    const HelpLines& help() const override;
    std::vector<std::pair<std::string, std::string>> pages() const override;
    void row_chosen(What what, int index) override;
    void arrived(const std::optional<Setup>& putt) override;
    std::optional<Setup> putt_at_hand() const override { return setup_; }
    bool rows_shown() const { return setup_.face == SlopeFace::three_rows && !setup_.green; }
    void show_note(bool shown);
    bool advance_easing(double seconds);
    bool advance_roll(double seconds);
    void set_view(bool eye);
    void next_eye();
    void open_green(const std::string& name);
    void step_history(bool undo);
    void use_offer();
    void choose_finish(int index);
    void zoom(double factor, const Vec2& about);
    void hint_done(int hint);
    Rect pane() const { return layout_.green; }

    // read_odds.cpp
    void ask_outlook();
    bool take_outlook();
    const PlayedChoice& best_of(BestKind kind) const;
    void take_best(BestKind kind);
    void choose_preset(int index);
    void toggle_spread();
    void remember_spread();
    void show_room();
    void draw_room(Frame& frame, const Look& look);
    void draw_spread(Picture& picture, const Look& look);

    // read_pointer.cpp
    MarkId mark_at(const Vec2& px) const;
    void click(const Target& target, bool twice);
    void wheel_over_green(double clicks, const Vec2& px, Held held);
    std::optional<Vec2> green_at(const Vec2& px) const;
    std::optional<Vec2> px_of(const Vec2& green) const;
    void begin_typing(Field field);

    // read_drag.cpp
    void begin_drag(MarkId mark, const Vec2& px);
    void drag_mark(const Vec2& px, Held held);
    void drag_ball(const Vec2& px, Held held);
    void drag_drop(const Vec2& px);
    void drag_bar(const Vec2& px, Held held);
    void drag_field(const Vec2& px, Held held);
    void drag_note_edge(const Vec2& px);
    double time_near(const Vec2& px) const;
    void end_drag();
    void cancel_drag();

    // read_keys.cpp
    bool press_ctrl(KeyPress pressed);
    bool press_letter(KeyPress pressed);
    bool press_roll(KeyPress pressed);
    bool press_arrow(KeyPress pressed);
    void step_field(Field field, double steps, bool fine, const std::string& name);
    void activate_focus();
    void move_hole(const Vec2& by);
    void turn_fall_line(double degrees);

    // read_frame.cpp
    void draw_map(Picture& picture, const Look& look);
    void draw_green(Frame& frame, const Look& look);
    NoteState note_state() const;
    TopBarState top_bar() const;
    MapView map_view() const;
    bool words_rest() const;
    std::size_t key_of_ground(const Look& look) const;

    // read_overlays.cpp
    void draw_message(Picture& picture, const Look& look);
    void draw_hint(Picture& picture, const Look& look);
    void draw_drag_figure(Picture& picture, const Look& look);
    void draw_note_edge(Picture& picture, const Look& look);

    std::vector<std::string> listed_;  ///< greens in the open list
    ReadStart start_;
    Setup setup_;
    Solved solved_;
    Trail trail_;
    // What trail and marks come from while they move to `solved_`.
    Solved before_;
    Trail trail_before_, trail_eased_;
    double ease_t_ = 1;
    Playback playback_;
    double since_drop_s_ = -1;  ///< since the ball fell; below 0: not just now
    History<Setup> history_;
    bool eye_ = false, note_shown_ = true, commit_ = false;
    EyePlace eye_place_ = EyePlace::crouched;
    PlanCamera camera_, camera_from_, camera_to_;
    EyeCamera eye_camera_;
    double camera_t_ = 1;
    bool zoomed_ = false;
    double settle_in_s_ = -1;
    double asked_s_ = -1;  ///< since the solver was asked; below 0: it is not at work
    NoteState note_state_;
    double note_height_ = 0;
    std::optional<Drag> drag_;
    MarkId hovered_mark_ = MarkId::none;
    Rect message_bar_;  ///< as drawn last; empty where there is none
    int hint_ = -1;     ///< the one that shows; none
    double hint_left_s_ = 0;
    double marks_share_ = 1;
    PlanPicture plan_;
    std::vector<Label> wishes_for_labels_;
    std::vector<Rect> taken_, dry_;

    bool room_ = false, spread_open_ = false;
    Spread remembered_;  ///< as the player's file holds it
    std::uint64_t question_number_ = 0;
    std::optional<OutlookQuestion> asked_;
    std::optional<double> live_chance_;  ///< of the putt as it is now
    Outlook told_;  ///< the newest answer; what it lacks yet is of the putt before
    std::uint64_t odds_number_ = 0, best_number_ = 0;  ///< of the questions that those answer
    RoomPanel panel_;                                  ///< as told last
    std::optional<BestKind> wanted_;                   ///< to be taken as soon as it is known
    OutlookDesk desk_;
};

}  // namespace dewtrail
