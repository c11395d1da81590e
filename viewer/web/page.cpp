#include "viewer/web/page.hpp"

#include <fmt/format.h>

#include <cmath>
#include <random>

#include "greens/green_file.hpp"
#include "greens/green_writer.hpp"
#include "greens/text_file.hpp"
#include "viewer/files/dates.hpp"
#include "viewer/files/folders.hpp"
#include "viewer/files/state_file.hpp"
#include "viewer/files/window_state.hpp"
#include "viewer/modes/compare/compare_mode.hpp"
#include "viewer/modes/green/green_mode.hpp"
#include "viewer/modes/measure/measure_mode.hpp"
#include "viewer/modes/practise/practise_mode.hpp"
#include "viewer/modes/read/read_mode.hpp"
#include "viewer/modes/review/review_mode.hpp"
#include "viewer/paper/putt_sheet.hpp"
#include "viewer/practice/drill/putt_set.hpp"
#include "viewer/practice/memory.hpp"
#include "viewer/practice/memory_csv.hpp"
#include "viewer/practice/pupils.hpp"
#include "viewer/practice/rehearse/swell.hpp"
#include "viewer/putt/kept_putt.hpp"
#include "viewer/putt/presets.hpp"
#include "viewer/putt/putt_request.hpp"
#include "viewer/survey/green_save.hpp"
#include "viewer/survey/kept_green.hpp"
#include "viewer/web/svg_pen.hpp"

namespace dewtrail {
namespace fs = std::filesystem;
namespace {

const fs::path shipped_greens = "/greens";
/// What a page that was sent opens on: putt.toml, set.toml, show, greens.
const fs::path lesson = "/lesson";

std::vector<fs::path> green_folders() {
    std::vector<fs::path> folders{lesson / "greens"};
    if (const auto data = data_folder()) folders.push_back(*data / "greens");
    folders.push_back(shipped_greens);
    return folders;
}

/// A page that was made elsewhere names a green by where it was there: here it goes by its name.
std::shared_ptr<const Green> load(const std::string& name) {
    std::error_code unknown;
    const bool here = !fs::path(name).is_absolute() || fs::exists(name, unknown);
    return std::make_shared<const Green>(
        load_green(here ? name : fs::path(name).stem().string(), green_folders()));
}

/// A page that is opened again is whose it was.
std::optional<fs::path> whose_path() {
    return state_path("page.toml");
}

std::string remembered_pupil() {
    const auto read = [](const TomlSection& file) -> std::optional<std::string> {
        const std::string pupil = file.text("pupil");
        return pupil.empty() || pupils_here().has(pupil) ? pupil : "";
    };
    return kept_state(whose_path(), read, {}).value_or("");
}

void remember_pupil(const std::string& pupil) {
    keep_state(whose_path(), fmt::format("pupil = {}\n", toml_string(pupil)));
}

using OddsDesk = std::shared_ptr<OutlookDesk>;

ReadStart read_start(const PageStart& page, const PageOwner& owner, const OddsDesk& odds) {
    const Player& player = owner.player;
    ReadStart start;
    start.width = page.width;
    start.height = page.height;
    start.theme = page.dusk ? Theme::dusk : Theme::dew;
    start.less_motion = page.less_motion;
    start.units = player.units();
    start.pupil = owner.pupil;
    start.usual_past_m = player.usual_past_m;
    start.load = load;
    start.greens = [] { return known_greens(green_folders()); };
    start.setup = set_up(first_putt(),
                         {player.units(), player.usual_past_m, player.stimp_ft, green_folders()})
                      .setup;
    if (const auto given = kept_putt(lesson / "putt.toml", start.load))
        start.setup = *given;
    else if (const auto kept = kept_putt(last_putt_file_of(owner.pupil), start.load))
        start.setup = *kept;
    start.setup.spread = player.spread;
    start.presets = named_presets();
    start.first_start = !load_window_state(window_state_path()).hints_seen;
    for (int i = 0; i < mode_count; ++i) start.modes.push_back(static_cast<ModeName>(i));
    start.modes.erase(start.modes.begin());
    start.own_help = true;
    start.odds = odds;
    return start;
}

PractiseStart practise_start(const PageOwner& owner) {
    PractiseStart start;
    start.memory_folder = memory_folder_of(owner.pupil);
    start.green_folders = green_folders();
    start.player = owner.player;
    start.plan = usual_plan(owner.player, std::random_device()() % 1'000'000);
    start.in_browser = true;
    std::error_code unknown;
    if (fs::exists(lesson / "set.toml", unknown))
        start.plan.set = load_putt_set(lesson / "set.toml");
    return start;
}

ReviewStart review_start(const PageOwner& owner, const Setup& setup) {
    ReviewStart start;
    start.setup = setup;
    start.usual_past_m = owner.player.usual_past_m;
    start.spread = owner.player.spread;
    start.memory_folder = memory_folder_of(owner.pupil);
    return start;
}

GreenStart green_start() {
    GreenStart start;
    start.load = load;
    start.greens = [] { return known_greens(green_folders()); };
    start.draft = kept_green(kept_green_path());
    start.keep = [](const std::optional<GreenDraft>& draft) {
        keep_green(kept_green_path(), draft);
    };
    start.save = [](const GreenDraft& draft, bool replace) {
        return save_draft(memory_folder_of("") / "greens", draft, replace);  // everybody's
    };
    return start;
}

/// The name of a demonstration, or empty.
std::string shown_lesson() {
    std::error_code unknown;
    const fs::path file = lesson / "show";
    return fs::exists(file, unknown) ? read_text_file(file, 100) : "";
}

/// What makes them asks for the owner as they are then.
Modes modes_of(const PageStart& page, const PageOwner& owner, const OddsDesk& odds) {
    const ReadStart start = read_start(page, owner, odds);
    Modes modes(Shell::with<ReadMode>(start, start));
    modes.offer(ModeName::read, [page, &owner, odds](const Appearance& appearance) {
        ReadStart again = read_start(page, owner, odds);
        static_cast<Appearance&>(again) = appearance;
        again.first_start = false;
        return Shell::with<ReadMode>(appearance, again);
    });
    modes.offer(ModeName::compare, [&owner](const Appearance& appearance) {
        return Shell::with<CompareMode>(
            appearance,
            CompareStart{owner.player.usual_past_m, owner.player.spread, shown_lesson()});
    });
    modes.offer(ModeName::practise, [&owner](const Appearance& appearance) {
        return Shell::with<PractiseMode>(appearance, practise_start(owner));
    });
    modes.offer(ModeName::review, [&owner, setup = start.setup](const Appearance& appearance) {
        return Shell::with<ReviewMode>(appearance, review_start(owner, setup));
    });
    modes.offer(ModeName::measure, [&owner](const Appearance& appearance) {
        return Shell::with<MeasureMode>(
            appearance,
            MeasureStart{memory_folder_of(owner.pupil), owner.player, std::random_device()()});
    });
    modes.offer(
        ModeName::green,
        [](const Appearance& appearance) {
            return Shell::with<GreenMode>(appearance, green_start());
        },
        Modes::Holds::nothing);
    return modes;
}

}  // namespace

Page::Page(const PageStart& start, Browser browser)
    : browser_(std::move(browser)),
      owner_(known_owner()),
      odds_(browser_.ask_beside ? std::make_shared<OutlookDeskBeside>(browser_.ask_beside)
                                : nullptr),
      modes_(modes_of(start, owner_, odds_)) {
    if (!unread_.empty()) shell().complain(unread_);
    std::error_code unknown;
    if (fs::exists(lesson / "set.toml", unknown)) modes_.change(ModeName::practise, std::nullopt);
    if (!shown_lesson().empty()) modes_.change(ModeName::compare, std::nullopt);
}

/// A player file that is newer or damaged does not keep the page shut: a pupil's leaves it
/// nobody's.
PageOwner Page::known_owner() {
    const auto try_as = [this](const std::string& pupil) -> std::optional<PageOwner> {
        try {
            return PageOwner{pupil, load_player(player_file_of(pupil))};
        } catch (const std::exception& error) {
            unread_ = told(error);
            return std::nullopt;
        }
    };
    if (const auto theirs = try_as(remembered_pupil())) return *theirs;
    return try_as("").value_or(PageOwner{});
}

Units Page::choose(const std::string& pupil) {
    owner_ = {pupil, load_player(player_file_of(pupil))};
    return owner_.player.units();
}

void Page::grant_pupil_wish(const Wish& wish) {
    const PupilDesk desk{.names = [] { return pupils_here().names(); },
                         .add = add_pupil,
                         .choose = [this](const std::string& pupil) { return choose(pupil); },
                         .has_own = has_own_putts,
                         .adopt_own = adopt_own_putts};
    if (!dewtrail::grant_pupil_wish(modes_, desk, wish)) return;
    remember_pupil(owner_.pupil);
    browser_.swell(0);
}

void Page::grant_wishes() {
    for (const Wish& wish : shell().take_wishes()) try {
            grant(wish);
        } catch (const std::exception& error) {
            shell().complain(error);
        }
    shell().take_actions();
}

void Page::grant(const Wish& wish) {
    switch (wish.kind) {
        case Wish::Kind::copy_text:
            return browser_.copy(wish.text);
        case Wish::Kind::paste_text:  // the page hears of it by itself
            return;
        case Wish::Kind::help:
            return browser_.help();
        case Wish::Kind::full_screen:
            return browser_.full_screen();
        case Wish::Kind::swell:
            return browser_.swell(wish.on ? swing_s(owner_.player) : 0);
        case Wish::Kind::hints_done:
            return remember_hints(window_state_path());
        case Wish::Kind::remember_spread:
            owner_.player.adopt(*wish.spread, wish.text.empty() ? "by hand" : wish.text, today());
            modes_.spread_changed(*wish.spread);
            return save_player(player_file_of(owner_.pupil), owner_.player);
        case Wish::Kind::keep_putt:
            return keep_putt(last_putt_file_of(owner_.pupil), *wish.putt);
        case Wish::Kind::change_mode:
            shell().pointer_released(shell().pointer());
            return modes_.change(wish.mode, wish.putt, wish.text);
        case Wish::Kind::pupils:
        case Wish::Kind::choose_pupil:
        case Wish::Kind::add_pupil:
        case Wish::Kind::adopt_own:
            return grant_pupil_wish(wish);
        case Wish::Kind::print:
            return print(wish);
        case Wish::Kind::show_file:  // what a page has printed is nowhere but in the browser
            return;
    }
}

Progress Page::progress() const {
    return progress_of(Memory(memory_folder()), owner_.player);
}

ToldLesson Page::lesson_of(const Wish& wish, const Units& units) const {
    Greenkeeper keeper(green_folders());
    const TaughtLesson taught = wished_lesson(wish, [&](const std::string& theme) {
        LessonFor who = lesson_today(owner_.pupil, owner_.player, units);
        who.theme = theme;
        return plan_lesson(who, progress(), keeper);
    });
    return told(taught, owner_.player.usual_past_m, keeper, units);
}

/// By the browser, which also makes files of what it prints.
void Page::print(const Wish& wish) {
    const Units units = shell().appearance().units;
    const Sheet sheet = wished_sheet(wish, units,
                                     {.pupil = owner_.pupil,
                                      .usual_past_m = owner_.player.usual_past_m,
                                      .progress = [this] { return progress(); },
                                      .lesson = [&] { return lesson_of(wish, units); }});
    std::string pages;
    for (std::size_t page = 0; page < sheet.pages.size(); ++page) pages += svg_of(sheet, page);
    browser_.print(wished_name(wish, units, owner_.pupil), pages);
    shell().say("Print at actual size, without margins of the browser's own.");
}

fs::path Page::memory_folder() const {
    return memory_folder_of(owner_.pupil);
}

std::string add_to_memory(const fs::path& folder, const fs::path& file) {
    constexpr std::size_t most_bytes = 50'000'000;
    std::string text = read_text_file(file, most_bytes);
    Memory memory(folder);
    if (text.starts_with("SQLite format 3")) {
        const Memory other(file.parent_path());
        const int added =
            memory.add(other.answers()) + memory.add(other.putts()) + memory.add(other.measures());
        return fmt::format("{} added.", added);
    }
    if (text.starts_with("at,called_m")) {
        const int added = memory.add(read_measures_csv(file.filename().string(), text));
        return fmt::format("{} balls and strokes added.", added);
    }
    const int added = memory.add(read_answers_csv(file.filename().string(), text));
    return fmt::format("{} answers added.", added);
}

std::string answers_as_csv(const fs::path& folder) {
    return write_answers_csv(Memory(folder).answers());
}

}  // namespace dewtrail
