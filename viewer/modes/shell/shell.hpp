#pragma once

#include <exception>
#include <filesystem>

#include "viewer/modes/shell/history.hpp"
#include "viewer/modes/shell/line_edit.hpp"
#include "viewer/modes/shell/mode.hpp"
#include "viewer/picture/widgets/bars.hpp"
#include "viewer/putt/playback.hpp"
#include "viewer/text/glossary.hpp"

namespace dewtrail {

/// What is to be painted. The ground changes seldom: paint it into a texture, and keep that while
/// `ground` is empty.
struct Frame {
    Picture ground, picture;
};

/// Everything that modes have in common, between keys and pointer on one side and a picture on the
/// other, without a window: appearance, undo, typing, focus, drags, the roll's clock, sheets,
/// messages, wishes. Each mode has a shell of its own, so that one comes back to it as one left it.
class Shell {
  public:
    using Maker = std::function<std::unique_ptr<Mode>(Shell&)>;
    Shell(const Appearance& appearance, const Maker& make);
    /// With a mode of this class, made from what it begins with.
    template <class M, class Start>
    static std::unique_ptr<Shell> with(const Appearance& appearance, Start start) {
        return std::make_unique<Shell>(
            appearance, [&](Shell& shell) { return std::make_unique<M>(shell, std::move(start)); });
    }
    Shell(const Shell&) = delete;
    Shell& operator=(const Shell&) = delete;

    // ---- what comes in
    /// The mode comes to the front, looking as the one before did; `putt` is what that one brings.
    void arrive(const Appearance& appearance, const std::optional<Setup>& putt);
    void resize(double width, double height);
    void pointer_moved(const Vec2& px, Held held);
    void pointer_pressed(const Vec2& px, Button button, Held held, bool twice = false);
    void pointer_released(const Vec2& px);
    void wheel(double clicks, const Vec2& px, Held held);
    void press(KeyPress pressed);
    /// What the key just pressed writes: it is typed, unless the key was a command.
    void enter(std::string_view characters);
    void paste(std::string_view text);
    /// All of a value's text, and Enter.
    void typed(const std::string& text);
    /// The ruler of the value that is typed, so much of its length on from where it was when this
    /// began; one step of undo, `done` ends it.
    void slide_typed(double share, bool done);
    bool advance(double seconds);
    void wait_until_settled() { mode_->wait_until_settled(); }

    // ---- what goes out
    Frame frame(const TextWidth& width);
    /// The texture is gone: the next frame brings the ground again.
    void forget_ground() { ground_forgotten_ = true; }
    std::vector<Wish> take_wishes() { return std::exchange(wishes_, {}); }
    /// Names of what happened, for the trace.
    std::vector<std::string> take_actions() { return std::exchange(actions_, {}); }
    bool hand_cursor() const;
    State state() const;
    Places places() const;
    bool typing() const { return entry_.has_value(); }
    std::optional<Value> typed_value() const;
    /// Whether a value stands there that can be typed.
    bool types(const Target& target) const;
    /// All that the help sheet tells, the mode's own first.
    Commands help_commands();
    /// One key of these, counted through all of them.
    void press_help(int number);

    Mode& mode() { return *mode_; }
    const Mode& mode() const { return *mode_; }
    ModeName name() const { return mode_->name(); }
    const Appearance& appearance() const { return appearance_; }
    const Units& units() const { return appearance_.units; }
    double text() const { return appearance_.text; }
    bool less_motion() const { return appearance_.less_motion; }
    double dusk() const { return dusk_; }  ///< between the themes, 0 to 1
    const Layout& layout() const { return layout_; }
    const Targets& targets() const { return targets_; }
    const std::string& message() const { return said_.words; }
    const std::optional<FocusStop>& focus() const { return focus_; }
    const std::optional<Target>& hovered() const { return hovered_; }
    const Vec2& pointer() const { return pointer_; }
    /// How far from a mark it is taken hold of, px: a finger reaches farther than a pointer.
    double reach(double usual_px) const { return by_finger_ ? std::max(usual_px, 24.0) : usual_px; }
    bool dragging() const { return drag_.has_value(); }
    /// The mark that is being moved.
    MarkId held_mark() const { return drag_ && drag_->moved ? drag_->drag.mark : MarkId::none; }
    Attention attention() const;
    /// As the message lies over the picture now; empty where there is none.
    const Rect& message_box() const { return message_box_; }
    bool focused(What what, int index = 0) const { return focus_ == FocusStop::on(what, index); }
    /// The index of the value of this kind that is typed.
    std::optional<int> typed_index(What what) const;
    std::optional<Field> typed_field() const;
    std::string typed_text() const;  ///< as far as it is typed; empty where nothing is
    std::size_t undo_depth() const { return history_.undo_depth(); }
    std::size_t redo_depth() const { return history_.redo_depth(); }

    // ---- what modes do with it
    Playback playback;
    void act(const std::string& name);
    /// `file`: what was made, to be opened from there.
    void say(const std::string& words, const std::filesystem::path& file = {}) {
        said_ = {words, file};
    }
    /// Says why something was not done.
    void complain(const std::string& words);
    void complain(const std::exception& error);
    /// One of the mode's pages, by its name.
    void print(const std::string& page);
    void wish(Wish wish) { wishes_.push_back(std::move(wish)); }
    /// `begin`: what is to begin there, by that mode's own word.
    void change_mode(ModeName mode, const std::string& begin = {});
    void set_focus(std::optional<FocusStop> stop) { focus_ = stop; }
    /// Before the document changes: one step of undo, but inside a drag the drag is the step.
    void remember();
    void forget_history() { history_ = History<std::any>(); }
    void begin_typing(const FocusStop& stop);
    /// The parts of the mode lie elsewhere now.
    void lay_out_again();
    /// A list to choose from, over the darkened window.
    void open_list(const std::string& title, std::vector<std::string> rows, const std::string& none,
                   std::function<void(int)> chosen, What what = What::page);
    void open_greens(std::vector<std::string> greens,
                     std::function<void(const std::string&)> chosen);
    /// What every mode can do beside its own.
    Commands own_commands();
    /// The pupils to choose from; nobody and a new one are among the rows, and a name for nobody's
    /// putts where there are some.
    void open_pupils(std::vector<std::string> names, bool has_own = false);
    bool sheet_open() const { return sheet_.kind != Sheet::Kind::none; }
    /// Roll and pause, back and on, slow motion: for the table of a mode that rolls balls.
    void add_roll_commands(Commands& commands);
    /// All but the first.
    void add_scrub_commands(Commands& commands);
    /// Whether the ground is to be painted anew: it was painted for another state, or is gone.
    template <class Ground>
    bool ground_changed(std::optional<Ground>& painted, const Ground& now) {
        if (!std::exchange(ground_forgotten_, false) && painted == now) return false;
        painted = now;
        return true;
    }

  private:
    /// A value being typed.
    struct Entry {
        FocusStop stop;
        std::string before;
        LineEdit edit;
    };
    struct InHand {
        Drag drag;
        Vec2 from;
        std::any before;  ///< the document
        double time_s = 0;
        bool moved = false, changed = false;
        Vec2 lifted{0, 0};  ///< so far above a finger, which would hide it
    };
    struct Said {
        std::string words;
        std::filesystem::path file{};
    };
    struct Sheet {
        enum class Kind { none, words, help, list, naming } kind = Kind::none;
        std::string title, none;
        std::vector<std::string> rows;
        std::function<void(int)> chosen;
        What what = What::page;
        int row = 0;
        std::optional<Value> line{};  ///< that is typed on it
        std::string button{};         ///< that ends it
    };

    // shell_commands.cpp
    void set_text(double text);
    void toggle_swell();
    void undo(bool back);
    void run(const ModeCommand& command, const Cue& cue);
    bool run_at(const Target& target, bool twice);
    void step_focus(bool back);
    void press_enter();
    std::optional<Value> value_at(const FocusStop& stop) const;
    std::optional<Value> shown_value(const FocusStop& stop) const;
    std::optional<Value> focused_value() const;
    std::optional<FocusStop> struck_value(char character) const;
    void run_key(KeyPress pressed);

    // shell_pointer.cpp
    void click(const Target& target, bool twice);
    void take_hold(Drag drag, const Vec2& px, Held held);
    Drag slide(const Value& value, const Target& target) const;
    Drag scrub_by_hand();
    void cancel_drag();

    // shell_typing.cpp
    void type_key(KeyPress pressed);
    void command_while_typing(KeyPress pressed);
    void type_on(bool back);
    bool finish_typing();
    std::optional<Rect> typing_place(const Value& value) const;
    void paint_typing(const Canvas& canvas);

    // shell_words.cpp
    using WordPlace = std::pair<const Explained*, Rect>;
    void find_words(const Picture& picture, const Look& look);
    const WordPlace* word_at(const Vec2& px) const;
    bool rest_on_word(double seconds);
    void leave_word();
    void paint_word(const Canvas& canvas) const;

    // shell_sheets.cpp
    void open_help();
    void open_keys();
    void open_pages();
    void ask_for_a_pupil(Wish::Kind then);
    void close_sheet();
    void choose_row(int index);
    void press_in_sheet(KeyPress pressed);
    void click_in_sheet();
    void paint_sheet(const Canvas& canvas);
    std::vector<Word> looks() const;

    void paint(Frame& frame, const Attention& near);
    TopBarState top_bar(const Surround& surround) const;
    Message message_now(const Surround& surround) const;
    bool advance_theme(double seconds);

    Appearance appearance_;
    std::unique_ptr<Mode> mode_;
    double dusk_ = 0;  ///< eased toward 0 or 1
    Layout layout_;
    Targets targets_, beneath_;  ///< what can be clicked; and what could but for a sheet over it
    std::optional<Target> hovered_;
    std::optional<FocusStop> focus_;
    Vec2 pointer_{0, 0};
    bool by_finger_ = false;
    Said said_;
    Rect message_box_;
    std::vector<WordPlace> words_;        ///< that can be explained, as painted last
    std::optional<WordPlace> told_word_;  ///< the one that is
    double rested_s_ = 0;                 ///< since the pointer moved
    bool ground_forgotten_ = true;
    TextWidth width_;         ///< of the last frame
    bool stale_ = false;      ///< something has happened since then
    bool key_taken_ = false;  ///< the key pressed last was a command: it writes nothing
    History<std::any> history_;
    std::optional<InHand> drag_;
    std::optional<Entry> entry_;
    Sheet sheet_;
    std::vector<Wish> wishes_;
    std::vector<std::string> actions_;
};

}  // namespace dewtrail
