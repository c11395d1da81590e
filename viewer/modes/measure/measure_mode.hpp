#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "viewer/modes/shell/scrolled_panel.hpp"
#include "viewer/modes/shell/shell.hpp"
#include "viewer/practice/measure/gate_test.hpp"
#include "viewer/practice/measure/measure_typed.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/practice/player.hpp"

namespace dewtrail {

/// How Measure begins.
struct MeasureStart {
    std::filesystem::path memory_folder;
    Player player{};
    std::uint64_t seed = 1;  ///< of the order of lengths
};

/// The mode Measure: twenty balls on a carpet give the player's own pace, two coins the line. Every
/// ball is remembered as it is entered.
class MeasureMode final : public Mode {
  public:
    /// Throws as Memory does.
    MeasureMode(Shell& shell, MeasureStart start);

    ModeName name() const override { return ModeName::measure; }
    Commands commands() override;
    Layout lay_out() const override;
    void laid_out() override;
    void prepare(const Look& look, Picture& ground) override;
    void paint(const Canvas& canvas) const override;
    std::optional<Drag> grab(const Grip& grip) override;
    std::vector<Value> fields() override;
    bool advance(double) override { return false; }
    std::any document() const override { return Undoable{entry_, taken_back_}; }
    void put_back(const std::any& document) override;
    void arrived(const std::optional<Setup>& putt) override;
    /// 'pace' or 'line': the drill of that test.
    void begin(const std::string& drill) override;
    Surround surround() const override;
    Pages pages() const override { return {{"Form for pace and line", "measure"}}; }
    std::string as_text() const override;
    bool wheel(double clicks, const Vec2& px, Held held) override;
    void spread_changed(const Spread& spread) override { start_.player.spread = spread; }
    State state() const override;
    Places places() const override;
    std::optional<FocusStop> first_value() const override;

  private:
    enum class View { pace, line, months };
    /// What is entered and not remembered yet.
    struct Entry {
        PaceFloor floor;
        std::optional<BallStop> stop;
    };

    struct KeptBall {
        PaceBall ball;
        BallStop stop;
    };
    using Kept = std::variant<KeptBall, GateStroke>;
    /// What undo brings back: what is entered, and what was remembered until it was taken back.
    struct Undoable {
        Entry entry;
        std::vector<Kept> taken_back;
    };

    // measure_mode.cpp
    void begin_pace(int balls);
    void begin_line(int strokes, bool drill);
    void begin_drill();
    void know_again();
    void change(const Entry& entry, const std::string& name);
    void change_floor(const PaceFloor& floor);
    void keep_ball();
    void keep_stroke(Passed passed);
    void take_back();
    void take_back_last(bool pace);
    void remember_again(const Kept& kept);
    void after_keeping();
    void count_strokes(int by);
    void take();
    void choose_view(int index);
    void go_on();
    bool pace_done() const { return at_ >= called_.size(); }
    bool line_done() const { return struck_ >= strokes_; }
    bool done() const { return view_ == View::pace ? pace_done() : line_done(); }
    double called_m() const { return called_[at_]; }
    std::vector<std::string> sentences() const;
    std::string drill() const;

    // measure_input.cpp
    std::vector<Value> pace_fields();
    Drag put_ball();
    void type_stop();
    void typed_stop(const std::string& text);

    // measure_picture.cpp
    Rect area() const;
    Rect floor_box() const;
    double x_of(double along_m) const;
    double most_m() const;
    double lane_y(std::size_t lane) const;
    std::vector<double> lanes() const;
    void paint_floor(const Canvas& canvas) const;
    void paint_marks(const Canvas& canvas) const;
    int went(Passed way) const;  ///< of the latest, through the gate that stands now
    void paint_gate(const Canvas& canvas) const;
    double paint_months(const Canvas& canvas, double from_px) const;
    class NotePart;  // measure_note.cpp
    double paint_note(const Canvas& canvas, double from_px) const;

    MeasureStart start_;
    Memory memory_;
    View view_ = View::pace;
    Entry entry_;
    std::vector<double> called_;  ///< lengths of this round, in order
    std::size_t at_ = 0;          ///< the one to be putted
    std::optional<GateTest> gate_;
    int struck_ = 0, strokes_ = 0;            ///< of this round
    std::vector<BallStop> stops_;             ///< entered on this floor, oldest first
    std::optional<Credible> floor_stimp_ft_;  ///< by these
    std::vector<Kept> taken_back_;            ///< of this round, oldest first
    Measures measures_;                       ///< all that is remembered
    Measured found_;
    std::vector<MeasuredMonth> months_;  ///< as far as Months is seen
    std::string taken_;                  ///< what was said when it was made the player's own
    ScrolledPanel note_, page_;
};

/// What can be typed in Measure, by Target::index of What::answer.
inline constexpr int measure_stop = 0, measure_from = 1, measure_to = 2, measure_line = 3,
                     measure_stimp = 4;
/// What can be clicked, by Target::index of What::measured.
inline constexpr int measured_left = 0, measured_through = 1, measured_right = 2,
                     measured_take_back = 3, measured_take = 4, measured_drill = 5;

}  // namespace dewtrail
