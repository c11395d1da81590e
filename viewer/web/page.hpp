#pragma once

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "viewer/modes/shell/pupil_desk.hpp"
#include "viewer/practice/coach/told_lesson.hpp"
#include "viewer/practice/habits/progress.hpp"
#include "viewer/practice/player.hpp"
#include "viewer/web/outlook_beside.hpp"

namespace dewtrail {

/// What the browser does for the page: it is asked in words, and answers later or not at all.
struct Browser {
    std::function<void(const std::string&)> copy;
    std::function<void()> full_screen;
    std::function<void(double swing_s)> swell;  ///< of that time, over and over; 0: silence
    std::function<void()> help;                 ///< what can be done, as a list of its own
    /// Pages as SVG elements, and what a file of them is called.
    std::function<void(const std::string& name, const std::string& pages)> print;
    OutlookDeskBeside::Send ask_beside{};  ///< null: odds are worked out here
};

/// How it opens.
struct PageStart {
    double width = 390, height = 844;
    bool dusk = false, less_motion = false;
};

/// Whose page it is: a pupil, or nobody, an empty name.
struct PageOwner {
    std::string pupil{};
    Player player{};
};

/// The window's modes for a page in a browser: the same shells, on files in the page's own memory,
/// which the script around it keeps. HOME says where.
class Page {
  public:
    Page(const PageStart& start, Browser browser);

    Shell& shell() { return modes_.now(); }
    /// To which the other instance's answers go; null without one.
    OutlookDeskBeside* odds() { return odds_.get(); }
    /// What was asked for by what came in last.
    void grant_wishes();

    const std::string& pupil() const { return owner_.pupil; }
    /// Of whoever the page is. InputError for a pupil who is no longer there.
    std::filesystem::path memory_folder() const;

  private:
    PageOwner known_owner();
    Units choose(const std::string& pupil);
    void grant(const Wish& wish);
    void grant_pupil_wish(const Wish& wish);
    void print(const Wish& wish);
    ToldLesson lesson_of(const Wish& wish, const Units& units) const;
    Progress progress() const;

    Browser browser_;
    std::string unread_;  ///< why the player file could not be read
    PageOwner owner_;
    std::shared_ptr<OutlookDeskBeside> odds_;
    Modes modes_;
};

/// Answers and putts from another page or a file of a player's, CSV or a whole memory: what is not
/// yet in the memory of this folder is added. Returns what came of it, in words.
std::string add_to_memory(const std::filesystem::path& folder, const std::filesystem::path& file);

/// All answers in the memory of this folder as a table.
std::string answers_as_csv(const std::filesystem::path& folder);

}  // namespace dewtrail
