#include "viewer/picture/widgets/focus.hpp"

#include <algorithm>

namespace dewtrail {

std::optional<FocusStop> step_focus(const std::vector<FocusStop>& order,
                                    const std::optional<FocusStop>& from, bool back) {
    if (order.empty()) return std::nullopt;
    const auto here = from ? std::find(order.begin(), order.end(), *from) : order.end();
    if (here == order.end()) return back ? order.back() : order.front();
    const auto i = static_cast<std::size_t>(here - order.begin()), n = order.size();
    return order[(i + (back ? n - 1 : 1)) % n];
}

}  // namespace dewtrail
