#pragma once

#include <any>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "viewer/modes/shell/appearance.hpp"
#include "viewer/modes/shell/command.hpp"
#include "viewer/modes/shell/wish.hpp"
#include "viewer/picture/widgets/bars.hpp"
#include "viewer/picture/widgets/focus.hpp"
#include "viewer/picture/widgets/message_bar.hpp"

namespace dewtrail {

class Shell;

/// A value that has the focus, is typed, and, where it has a ruler, is stepped and slid.
struct Value {
    const char* name = "";  ///< its place's, for tests
    FocusStop stop;         ///< What::answer, or What::field with What::figure where it is typed
    std::string text;       ///< as one would type it
    std::function<void(const std::string&)> type;  ///< InputError says why not
    double size = 21;                              ///< of type
    std::string example{};                         ///< seen while nothing is typed
    std::function<Rect(const Rect& hit)> where{};  ///< it is typed; empty: all of its target
    std::function<void(double steps, bool fine)> step{};
    /// By this share of its ruler from where it was when it was taken hold of.
    std::function<void(double share, bool fine)> slide{};
};

/// Where the pointer was pressed: on a target or, without one, on the picture.
struct Grip {
    Vec2 px;
    Button button = Button::left;
    Held held{};
    std::optional<Target> target{};
    bool twice = false;
};

/// Something taken hold of. Its change is one step of undo, and Esc takes it back.
struct Drag {
    std::function<void()> taken{};                          ///< at the press
    std::function<void(const Vec2& px, Held held)> move{};  ///< empty: there is nothing to hold
    std::function<void()> let_go{};                         ///< after it has moved
    std::function<void()> taken_back{};                     ///< what is not in the document
    std::optional<FocusStop> focus{};
    MarkId mark = MarkId::none;  ///< of the green, if it is one
    bool at_once = false;        ///< moved to the place of the press already
};

/// What stands round a mode's picture.
struct Surround {
    std::vector<std::string> views{};  ///< none where the mode has but one
    int view = 0;
    std::string name{};  ///< of the green, beside the modes where there is room
    Message notice{};    ///< what is wrong with the putt, where nothing newer is to be said
    bool numbers = true;
};

/// A page that can be printed: in words, and its name.
using Pages = std::vector<std::pair<std::string, std::string>>;
/// What a test may want to know, by name.
using State = std::vector<std::pair<std::string, std::variant<bool, double, std::string>>>;
using Places = std::vector<std::pair<std::string, Vec2>>;

/// A mode: a document, a table of commands and a picture. Pixels are the window's. Everything that
/// modes have in common is the Shell's, which each has about it.
class Mode {
  public:
    explicit Mode(Shell& shell) : shell_(shell) {}
    virtual ~Mode() = default;
    Mode(const Mode&) = delete;
    Mode& operator=(const Mode&) = delete;

    // ---- what each has
    virtual ModeName name() const = 0;
    virtual Commands commands() = 0;
    /// Where the parts lie. After the window's size, the size of type or the units have changed.
    virtual Layout lay_out() const = 0;
    virtual void paint(const Canvas& canvas) const = 0;
    /// What there is to take hold of; asking changes nothing.
    virtual std::optional<Drag> grab(const Grip& grip) = 0;
    virtual std::vector<Value> fields() = 0;
    /// Time passes. True while something moves and the picture has to be drawn again.
    virtual bool advance(double seconds) = 0;

    // ---- what it may have
    /// The parts lie elsewhere now: the camera is fitted.
    virtual void laid_out() {}
    /// Before it is painted: labels find their places. The ground, if it has to be painted anew.
    virtual void prepare(const Look&, Picture& /*ground*/) {}
    /// All that undo brings back.
    virtual std::any document() const { return {}; }
    virtual void put_back(const std::any&) {}
    /// A drag that has changed the document is let go.
    virtual void dropped() {}
    virtual void arrived(const std::optional<Setup>&) {}
    /// Where one comes from has asked for it, by the mode's own word.
    virtual void begin(const std::string& /*what*/) {}
    /// The putt that goes along when another mode is chosen; none: that mode keeps its own.
    virtual std::optional<Setup> putt_at_hand() const { return std::nullopt; }
    virtual Surround surround() const { return {}; }
    virtual Pages pages() const { return {}; }
    virtual std::shared_ptr<const PrintedComparison> comparison_to_print() const { return nullptr; }
    virtual std::shared_ptr<const TaughtLesson> lesson_to_print() const { return nullptr; }
    virtual std::string as_text() const { return ""; }
    /// True where the wheel meant something.
    virtual bool wheel(double /*clicks*/, const Vec2& /*px*/, Held) { return false; }
    /// The roll's time was chosen by hand.
    virtual void scrubbed() {}
    /// Another mode has changed the player's spread.
    virtual void spread_changed(const Spread&) {}
    /// Marks on the green that Tab goes to.
    virtual std::vector<MarkId> marks_to_focus() const { return {}; }
    /// What the mode is first about: a digit begins it where no value has the focus.
    virtual std::optional<FocusStop> first_value() const { return std::nullopt; }
    /// What another player would cut short: '3 of 10 putts answered'.
    virtual std::string unfinished() const { return ""; }
    /// Until all that is worked out beside is there: for a single picture, and for tests.
    virtual void wait_until_settled() {}
    virtual State state() const { return {}; }
    /// Middles of what is on the green, by name.
    virtual Places places() const { return {}; }

  protected:
    Shell& shell_;
};

ModeWord mode_word(ModeName mode);

/// What went wrong, and what to do about it where that is known.
std::string told(const std::exception& error);

/// An error's words as a sentence: with a capital, and a stop unless it asks.
std::string spoken(std::string words);

}  // namespace dewtrail
