#include "viewer/picture/widgets/focus.hpp"

#include <algorithm>

namespace dewtrail {
namespace {

void add_all(std::vector<FocusStop>& order, const Targets& targets,
             std::initializer_list<What> kinds) {
    for (const What what : kinds)
        for (const Target& target : targets)
            if (target.what == what) order.push_back(FocusStop::on(what, target.index));
}

}  // namespace

std::vector<FocusStop> focus_order(const Targets& targets, bool has_green, bool has_fall_line) {
    std::vector<FocusStop> order;
    add_all(order, targets, {What::mode, What::view, What::print, What::units, What::help});
    order.push_back(FocusStop::on(MarkId::ball));
    if (has_green) order.push_back(FocusStop::on(MarkId::hole));
    if (has_fall_line) order.push_back(FocusStop::on(MarkId::drop));
    add_all(order, targets, {What::offer, What::close});
    for (const Target& target : targets) {
        if (target.what == What::field || target.what == What::face)
            order.push_back(FocusStop::on(target.what, target.index));
    }
    add_all(order, targets,
            {What::play, What::time_line, What::slow, What::detail, What::choice, What::row,
             What::spread, What::preset, What::best});
    return order;
}

std::optional<FocusStop> step_focus(const std::vector<FocusStop>& order,
                                    const std::optional<FocusStop>& from, bool back) {
    if (order.empty()) return std::nullopt;
    const auto here = from ? std::find(order.begin(), order.end(), *from) : order.end();
    if (here == order.end()) return back ? order.back() : order.front();
    const auto i = static_cast<std::size_t>(here - order.begin()), n = order.size();
    return order[(i + (back ? n - 1 : 1)) % n];
}

}  // namespace dewtrail
