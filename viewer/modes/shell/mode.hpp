#pragma once

#include <functional>
#include <initializer_list>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "greens/units.hpp"
#include "viewer/comparison/comparison.hpp"
#include "viewer/picture/keys.hpp"
#include "viewer/picture/layout.hpp"
#include "viewer/picture/palette.hpp"
#include "viewer/picture/picture.hpp"
#include "viewer/picture/targets.hpp"
#include "viewer/picture/widgets/bars.hpp"
#include "viewer/picture/widgets/focus.hpp"
#include "viewer/putt/playback.hpp"
#include "viewer/putt/setup.hpp"
#include "viewer/putt/spread.hpp"

namespace dewtrail {

/// The window's modes, in the order of their words and of the keys 1 to 5.
enum class ModeName { read, compare, practise, review, green };
inline constexpr int mode_count = 5;
const char* words_for(ModeName mode);

/// How everything looks, whatever the mode; goes along from one to the next.
struct Appearance {
    Theme theme = Theme::dew;
    Units units{};
    double text = 1;
    bool less_motion = false;
    double width = design_width, height = design_height;
    double tick_ratio = 0;  ///< of a stroke's rhythm, back to forward in time; 0: it is off
    std::vector<ModeName> modes = {ModeName::read};  ///< that there are to choose from, in order
};

/// A comparison as it is to be printed.
struct PrintedComparison {
    Comparison comparison;
    std::string title;
    std::vector<std::string> sentences;
};

/// What a mode asks of the window around it.
struct Wish {
    enum class Kind {
        copy_text,
        full_screen,
        hints_done,
        remember_spread,
        keep_putt,
        change_mode,
        print,
        tick
    };
    Kind kind;
    std::string text{};              ///< to copy; or the name of the page to print
    ModeName mode = ModeName::read;  ///< to change to
    std::optional<Setup> putt{};     ///< to keep, to take along there, or to print
    std::shared_ptr<const PrintedComparison> compared{};  ///< to print
    std::optional<Spread> spread{};                       ///< to remember
    double ratio = 0;                                     ///< of the tick, back to forward; 0: off
};

/// What is to be painted. The ground changes seldom: paint it into a texture and keep that as long
/// as `ground_key` stays the same. Where the key is new and `ground` empty, the texture stays too.
struct Frame {
    std::size_t ground_key = 0;
    Picture ground, picture;
};

/// A value that is being typed.
struct Typing {
    int field = 0;  ///< the mode's own number for it, or number_of a putt's field
    std::string text;
    Rect where;
    double size_px = 16;
};

/// A line of a help sheet: what, key.
using HelpLines = std::vector<std::pair<const char*, const char*>>;

/// A putt's field as Typing::field; the modes' own numbers lie below.
inline constexpr int typed_fields_from = 100;
inline int number_of(Field field) {
    return typed_fields_from + static_cast<int>(field);
}

/// Everything that happens between a key or a mouse move and a picture, without a window. Pixels
/// are the window's. What all modes share lives here: appearance, help, messages, wishes.
class Mode {
  public:
    explicit Mode(const Appearance& appearance);
    virtual ~Mode() = default;
    Mode(const Mode&) = delete;
    Mode& operator=(const Mode&) = delete;

    virtual ModeName name() const = 0;

    // ---- what comes in
    /// The mode comes to the front, looking as the one before did; `putt` is what that one brings.
    void arrive(const Appearance& appearance, const std::optional<Setup>& putt);
    void resize(double width, double height);
    virtual void pointer_moved(const Vec2& px, Held held) = 0;
    virtual void pointer_pressed(const Vec2& px, Button button, Held held, bool twice = false) = 0;
    virtual void pointer_released(const Vec2& px) = 0;
    virtual void wheel(double clicks, const Vec2& px, Held held) = 0;
    virtual void press(KeyPress pressed) = 0;
    /// Ends typing; empty or unreadable text leaves the value, and says why.
    virtual void typed(const std::string& text) = 0;
    /// Something that went well or wrong outside, for the bar at the top.
    void tell(const std::string& words) { say(words); }
    /// Time passes. True while something moves and the picture has to be drawn again.
    virtual bool advance(double seconds) = 0;
    /// Until all that is worked out beside is there: for a single picture, and for tests.
    virtual void wait_until_settled() {}

    // ---- what goes out
    virtual Frame frame(const TextWidth& width) = 0;
    /// The texture is gone: the next frame brings the ground again.
    void forget_ground() { last_ground_key_ = 0; }
    std::vector<Wish> take_wishes() { return std::exchange(wishes_, {}); }
    /// Names of what happened, for the trace.
    std::vector<std::string> take_actions() { return std::exchange(actions_, {}); }
    virtual std::optional<Typing> typing() const { return std::nullopt; }
    virtual bool hand_cursor() const;

    /// What a test may want to know of the mode, by name.
    using State = std::vector<std::pair<std::string, std::variant<bool, double, std::string>>>;
    virtual State state() const { return {}; }
    /// Middles of what can be clicked or dragged, by name; window pixels.
    virtual std::vector<std::pair<std::string, Vec2>> places() const { return {}; }

    const Appearance& appearance() const { return appearance_; }
    Theme theme() const { return appearance_.theme; }
    const Units& units() const { return appearance_.units; }
    double text() const { return appearance_.text; }
    const Layout& layout() const { return layout_; }
    const Targets& targets() const { return targets_; }
    const std::string& message() const { return message_; }
    const std::optional<FocusStop>& focus() const { return focus_; }

  protected:
    /// After the window's size, the size of type or the units have changed.
    virtual void relayout() = 0;
    virtual void arrived(const std::optional<Setup>&) {}
    /// The putt that goes along when another mode is chosen; none: that mode keeps its own.
    virtual std::optional<Setup> putt_at_hand() const { return std::nullopt; }

    void act(const std::string& name) { actions_.push_back(name); }
    void say(const std::string& words) { message_ = words; }
    void wish(Wish wish) { wishes_.push_back(std::move(wish)); }
    void change_mode(ModeName mode);
    void set_theme(Theme theme);
    void set_text(double text);
    void set_tick(double ratio);
    /// Keys that mean the same in every mode: 1 to 5, theme, units, type size, full screen, help,
    /// pages to print, the tick. True if it was one.
    bool press_common(KeyPress pressed);
    /// Keys of a roll: J, L, Home, End, M. True if it was one; "scrub" is then among the actions if
    /// the time was moved.
    bool press_playback(Playback& playback, KeyPress pressed);
    /// True while something is typed: then only Esc is the mode's. What has lost its place on the
    /// screen is typed no longer.
    bool press_while_typing(KeyPress pressed);
    /// The putt's field that is typed, if it is one.
    std::optional<Field> typed_field() const;
    /// To the next stop among the targets of these kinds, in their order.
    void step_focus_over(std::initializer_list<What> kinds, bool back);
    /// A click on the top bar: modes, units, Sheet, help. True if it was one.
    bool click_common(const Target& target);
    /// The top bar, but for views and name.
    TopBarState top_bar_of_mode() const;
    /// Between the themes; true while that goes on.
    bool advance_theme(double seconds);
    Look look(const TextWidth& width, bool numbers = true) const;

    // A sheet over the darkened window: the keys, or a list to choose from.
    virtual const HelpLines& help() const = 0;  ///< beside what all modes share
    /// What can be printed from here: in words, and the page's name.
    virtual std::vector<std::pair<std::string, std::string>> pages() const { return {}; }
    /// For a page of a comparison.
    virtual std::shared_ptr<const PrintedComparison> comparison_to_print() const { return nullptr; }
    /// A row of the list was chosen; the sheet is closed already.
    virtual void row_chosen(What what, int index);
    bool sheet_open() const { return sheet_.kind != OpenSheet::Kind::none; }
    bool help_open() const { return sheet_.kind == OpenSheet::Kind::help; }
    void open_help();
    void open_pages();
    void open_list(const std::string& title, std::vector<std::string> rows, What what,
                   const std::string& none);
    void close_sheet();
    /// Keys and clicks while a sheet is open; true if it took them.
    bool press_in_sheet(KeyPress pressed);
    bool click_in_sheet();
    void draw_sheet(Picture& picture, const Look& look);

    /// What has the pointer or the keyboard, outside the green.
    Attention attention() const;

    Appearance appearance_;
    double dusk_ = 0;  ///< eased toward 0 or 1
    Layout layout_;
    Targets targets_;
    std::optional<Target> hovered_;
    std::optional<FocusStop> focus_;
    std::optional<int> typing_;  ///< Typing::field of what is typed
    Vec2 pointer_ = Vec2::Zero();
    std::string message_;
    std::size_t last_ground_key_ = 0;

  private:
    struct OpenSheet {
        enum class Kind { none, help, list } kind = Kind::none;
        std::string title, none;
        std::vector<std::string> rows;
        What what = What::page;
        int row = 0;
    };
    void choose_row(int index);

    OpenSheet sheet_;
    std::vector<Wish> wishes_;
    std::vector<std::string> actions_;
};

/// An error's words as a sentence: with a capital, and a stop unless it asks.
std::string spoken(std::string words);

/// A message and a button to answer it, if any: "Close", or an offer.
struct Message {
    std::string words, button;
    Target answer{What::close, 0, {}};
};
/// A bar at the top of a pane. Returns its box; empty where there is nothing to say.
Rect draw_message_bar(Picture& picture, Targets& targets, const Message& message, const Rect& pane,
                      const Attention& attention, const Look& look);

}  // namespace dewtrail
