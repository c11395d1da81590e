#include "viewer/web/read_figures.hpp"

#include <fmt/format.h>

#include "viewer/putt/account.hpp"
#include "viewer/putt/putt_request.hpp"
#include "viewer/putt/solved.hpp"

namespace dewtrail {
namespace {

struct Written {
    std::string operator()(const std::optional<double>& value) const {
        return value ? fmt::format("{:.17g}", *value) : "null";
    }
    std::string operator()(bool value) const { return value ? "true" : "false"; }
    std::string operator()(const std::string& value) const { return value; }
    std::string operator()(const std::pair<double, double>& value) const {
        return fmt::format("[{:.17g},{:.17g}]", value.first, value.second);
    }
};

}  // namespace

std::string figures_of_read(const std::vector<std::string>& words,
                            const std::filesystem::path& greens) {
    PuttRequest request;
    const bool on_green = words.at(1).find(',') != std::string::npos;
    (on_green ? request.green : request.distance) = words.at(0);
    (on_green ? request.ball : request.slope) = words.at(1);
    (on_green ? request.hole : request.clock) = words.at(2);
    request.stimp = words.at(3);
    request.past = words.at(4);
    const PlacedPutt placed = set_up(request, {.green_folders = {greens}});
    const Solved solved = solve(placed.setup, usual_past_m, Effort::settled);
    if (!solved.read) return "none";
    std::string text;
    const Account account = account_of(solved.putt, *solved.read, Units{}, known_of(placed.setup));
    for (const AccountRow& row : account.rows)
        for (const Figure& figure : row.figures)
            text += std::string(figure.key) + ' ' + std::visit(Written(), figure.value) + '\n';
    return text;
}

}  // namespace dewtrail
