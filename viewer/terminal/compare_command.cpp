#include <nlohmann/json.hpp>

#include <fmt/format.h>

#include <memory>
#include <ostream>

#include "greens/input_error.hpp"
#include "viewer/comparison/compare_words.hpp"
#include "viewer/files/whole_file.hpp"
#include "viewer/paper/compare_page.hpp"
#include "viewer/paper/sheet.hpp"
#include "viewer/putt/putt_words.hpp"
#include "viewer/terminal/busy.hpp"
#include "viewer/terminal/compare_options.hpp"
#include "viewer/terminal/compare_report.hpp"
#include "viewer/terminal/picture_options.hpp"
#include "viewer/terminal/putt_options.hpp"

namespace dewtrail {
namespace {

struct Arguments {
    CompareArguments putts;
    CompareView view;
    std::optional<std::string> show;
    std::optional<std::string> png;
};

constexpr const char* compare_footer =
    "The first putt is given as in read; each --with is the same putt but for what it says.\n"
    "Examples:\n"
    "  dewtrail compare 12ft --slope 2% --stimp 10 --clock 1:30 --with 'clock 4:30'\n"
    "      Downhill against uphill, and why the one breaks more.\n"
    "  dewtrail compare 12ft --slope 2% --clock 3 --with 'stimp 8' --with 'stimp 12, past firm'\n"
    "      Three putts.\n"
    "  dewtrail compare 12ft --slope 2% --clock 3 --with 'aim apex'\n"
    "      The read against the same stroke aimed at its apex.\n"
    "  dewtrail compare --show list\n"
    "      Ready demonstrations, each with two sentences to say.";

Exit list_demonstrations(Session& session) {
    if (session.json()) {
        Json names = Json::array();
        for (const auto& name : demonstration_names())
            names.push_back({{"name", name.key}, {"title", name.title}});
        session.print({{"demonstrations", names}});
        return Exit::done;
    }
    std::vector<std::vector<std::string>> rows;
    for (const auto& name : demonstration_names())
        rows.push_back({std::string(name.key), std::string(name.title)});
    print_table(session.out(), rows);
    return Exit::done;
}

void print_demonstration(Session& session, const Demonstration& shown, const CompareView& view) {
    std::ostream& out = session.out();
    const Units units = session.units();
    out << as_sentence(shown.title) << "\n"
        << putt_words(shown.comparison.putts[0].plan, units) << "\n\n";
    print_comparison_table(session, shown.comparison, view);
    for (const PlayedPutts& played : shown.played) print_played(out, played, units);
    for (const std::string& sentence : shown.say) out << sentence << '\n';
    print_comparison_rest(session, shown.comparison, view);
}

void check_swap(const Comparison& comparison, const CompareView& view) {
    if (view.swap && comparison.putts.size() != 2)
        throw InputError("--swap needs exactly two putts", "Leave --swap out, or compare two.");
}

/// The page of it as a picture.
template <class MakePage>
void save_picture(const std::optional<std::string>& png, MakePage page) {
    if (!png) return;
    save_whole_file(*png, sheet_png({Paper::a4, {page()}}, 0));
}

Exit show(Session& session, const std::string& name, const CompareView& view,
          const std::optional<std::string>& png) {
    if (name == "list") return list_demonstrations(session);
    const Demonstration shown = while_busy(session, "Reading the putts …",
                                           [&] { return demonstrate(name, session.units()); });
    check_swap(shown.comparison, view);
    save_picture(png, [&] { return compare_page(printed(shown), Paper::a4, session.units()); });
    session.caution();
    if (!session.json()) {
        print_demonstration(session, shown, view);
        print_picture(session, png);
        return Exit::done;
    }
    Json json = {{"title", shown.title}};
    json.update(comparison_json(session, shown.comparison, view, shown.say[0]));
    json["say"] = shown.say;
    json["played"] = Json::array();
    for (const PlayedPutts& played : shown.played) json["played"].push_back(played_json(played));
    session.print(json);
    return Exit::done;
}

bool has_read(const Comparison& comparison) {
    for (const ComparedPutt& putt : comparison.putts)
        if (putt.read) return true;
    return false;
}

Exit run_compare(Session& session, const Arguments& arguments) {
    check_picture(arguments.png);
    if (arguments.show) {
        const PuttRequest& putt = arguments.putts.first.putt;
        if (!arguments.putts.with.empty() || putt.distance || putt.slope || putt.stimp ||
            putt.clock || putt.green || putt.past || putt.wet)
            throw InputError("--show brings its own putts",
                             "Leave the putt's options and --with out, or leave --show out.");
        return show(session, *arguments.show, arguments.view, arguments.png);
    }
    const Comparison comparison = while_busy(session, "Reading the putts …", [&] {
        return compare(requests_of(arguments.putts), defaults_of(session));
    });
    check_swap(comparison, arguments.view);
    const Units units = session.units();
    const std::string sentence = comparison_sentence(comparison, units);
    if (has_read(comparison))
        save_picture(arguments.png, [&] {
            return compare_page({comparison, "Side by side", {sentence}}, Paper::a4, units);
        });
    session.caution();
    if (session.json()) {
        session.print(comparison_json(session, comparison, arguments.view, sentence));
    } else {
        session.out() << putt_words(comparison.putts[0].plan, units) << "\n\n";
        print_comparison_table(session, comparison, arguments.view);
        session.out() << sentence << '\n';
        print_comparison_rest(session, comparison, arguments.view);
        if (has_read(comparison)) print_picture(session, arguments.png);
    }
    return has_read(comparison) ? Exit::done : Exit::no_answer;
}

}  // namespace

void add_compare_command(const Command& app, Session& session) {
    const Command command = app.add_subcommand(
        "compare", "Two to four putts side by side, and what makes the difference");
    auto arguments = std::make_shared<Arguments>();
    add_compare_options(command, arguments->putts);
    command.add_flag("--swap", arguments->view.swap, "Roll each of two with the other's aim")
        .group("Comparison");
    command.add_option("--show", arguments->show, "A ready demonstration by name, or list")
        .group("Comparison");
    command.add_flag("--odds", arguments->view.odds, "The chance to hole each as well");
    command.add_flag("--detail", arguments->view.detail,
                     "The parts of the difference, speeds and pulls: coach detail");
    command.add_option("--png", arguments->png, "Its page as a picture to write, PNG");
    session.add_common_options(command);
    command.footer(compare_footer);
    command.callback([&session, arguments] {
        session.run = [&session, arguments] { return run_compare(session, *arguments); };
    });
}

}  // namespace dewtrail
