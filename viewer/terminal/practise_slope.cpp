#include <cmath>
#include <ostream>

#include "viewer/practice/bias.hpp"
#include "viewer/practice/dates.hpp"
#include "viewer/scene/quantity.hpp"
#include "viewer/terminal/asking.hpp"
#include "viewer/terminal/practise.hpp"

namespace dewtrail {
namespace {

constexpr double degrees_per_hour = 30;

double parse_fall_deg(const std::string& text) {
    return parse_clock_h(text, "fall") * degrees_per_hour;
}

double parse_percent(const std::string& text) {
    return parse_slope(text);
}

/// False at the end of the answers.
bool ask(Asking& asking, Answer& answer) {
    return (answer.slope_said = asking.until("You feel (1.5%):", parse_percent)) &&
           (answer.falls_said_deg = asking.until("It falls toward (clock):", parse_fall_deg)) &&
           (answer.slope_shown = asking.until("The level shows (2%):", parse_percent)) &&
           (answer.falls_shown_deg = asking.until("It falls toward (clock):", parse_fall_deg));
}

std::string result_words(const Answer& answer) {
    const double off = std::remainder(*answer.falls_said_deg - *answer.falls_shown_deg, 360);
    return fmt::format("You feel {:.1f} % where it is {:.1f} %; the fall is {:.0f}° off.",
                       100 * *answer.slope_said, 100 * *answer.slope_shown, std::abs(off));
}

Json json_of(const Answer& answer) {
    return {{"id", answer.id},
            {"slope_said", number(answer.slope_said)},
            {"falls_said_deg", number(answer.falls_said_deg)},
            {"slope_shown", number(answer.slope_shown)},
            {"falls_shown_deg", number(answer.falls_shown_deg)}};
}

void print_habit(Session& session, const Memory& memory) {
    if (const auto habit = slope_habit(memory.answers()))
        session.out() << fmt::format(
            "Over {} spots you feel {:.1f} % where it is {:.1f} %; the fall is {:.0f}° off.\n",
            habit->answers, 100 * habit->felt, 100 * habit->shown, habit->fall_off_deg);
    else
        session.out() << "The trend starts after six spots.\n";
}

}  // namespace

Exit run_slope_drill(Session& session, Memory& memory, int rounds) {
    Asking asking(session);
    Json list = Json::array();
    if (!session.json())
        session.out() << "Stand by a spot. Say the slope and which way it falls, as the hand of a "
                         "clock in front of\nyou: 12 away from you, 3 to your right. Then lay the "
                         "level down and type what it shows.\n\n";
    for (int i = 0; i < rounds; ++i) {
        Answer answer;
        answer.drill = Drill::slope;
        if (!session.json()) session.out() << fmt::format("Spot {} of {}\n", i + 1, rounds);
        if (!ask(asking, answer)) break;
        answer.at = moment_now();
        answer.id = memory.remember(answer);
        list.push_back(json_of(answer));
        if (!session.json()) session.out() << result_words(answer) << '\n' << std::endl;
    }
    if (session.json())
        session.print({{"drill", "slope"}, {"spots", list}});
    else
        print_habit(session, memory);
    return Exit::done;
}

}  // namespace dewtrail
