#include "viewer/putt/outlook.hpp"

#include <cmath>

#include "physics/surface/line_profile.hpp"

namespace dewtrail {
namespace {

const Plane* plane_of(const Surface& surface) {
    return dynamic_cast<const Plane*>(&surface);
}

/// Every change of a bare putt makes its ground anew: what is alike is the same ground.
bool same_ground(const Surface& a, const Surface& b) {
    if (&a == &b) return true;
    const Plane *p = plane_of(a), *q = plane_of(b);
    if (p && q) return p->gradient() == q->gradient();
    const auto *l = dynamic_cast<const LineProfile*>(&a), *m = dynamic_cast<const LineProfile*>(&b);
    return l && m && *l == *m;
}

}  // namespace

bool same_question(const OutlookQuestion& a, const OutlookQuestion& b) {
    const auto same_finish = [](const Finish& p, const Finish& q) {
        return p.kind == q.kind && p.value == q.value;
    };
    const Putt &p = a.putt, &q = b.putt;
    return same_ground(*p.surface, *q.surface) && p.resistance == q.resistance &&
           p.conditions == q.conditions && p.ball == q.ball && p.hole == q.hole &&
           same_finish(p.finish, q.finish) && same_finish(a.plain, b.plain) &&
           a.read.stroke.angle_rad == b.read.stroke.angle_rad &&
           a.read.stroke.speed_m_s == b.read.stroke.speed_m_s && a.spread == b.spread;
}

std::optional<double> live_chance(const Putt& putt, const Read& read, const Spread& spread) {
    constexpr MapOptions half{.edge_rows = 25};  // of the odds' rows: 0.001 on gentle ground
    if (!plane_of(*putt.surface) || !putt.conditions.plain() || !has_odds(putt))
        return std::nullopt;
    const auto meant = spread_of(putt, read, scatter_of(spread));
    if (!meant) return std::nullopt;
    const auto map = StrokeMap::make(putt, read.stroke, window_of(*meant), half);
    if (!map) return std::nullopt;
    return chance_to_hole(*map, *meant);
}

std::optional<double> chance_of_finish(const BestChoice& best, double past_m) {
    constexpr double same_m = 1e-6;
    for (const PlayedChoice& choice : best.by_past)
        if (std::abs(choice.past_m - past_m) < same_m) return choice.odds.holed;
    return std::nullopt;
}

const HoleSurround* OutlookMaker::surround_of(const Putt& putt,
                                              const std::function<bool()>& go_on) {
    const bool kept = surround_ && same_ground(*at_.surface, *putt.surface) &&
                      at_.resistance == putt.resistance && at_.conditions == putt.conditions &&
                      at_.outline == putt.outline && at_.hole == putt.hole;
    if (!kept) {
        next_.reset();
        surround_.emplace(putt);
        at_ = putt;
    }
    return surround_->grow(go_on) == HoleSurround::State::whole ? &*surround_ : nullptr;
}

const NextPutts* OutlookMaker::next_of(const Putt& putt, const Spread& spread,
                                       const std::function<bool()>& go_on) {
    const HoleSurround* surround = has_odds(putt) ? surround_of(putt, go_on) : nullptr;
    if (!surround) return nullptr;
    if (!next_ || !(next_spread_ == spread)) {
        next_.emplace(*surround, scatter_of(spread));
        next_spread_ = spread;
    }
    return &*next_;
}

void OutlookMaker::begin(const OutlookQuestion& question) {
    asked_.reset();
    outlook_ = {};
    const Read& read = question.read;
    if (read.room) outlook_.outline = room_outline(question.putt, read.stroke, *read.room);
    outlook_.spread = spread_of(question.putt, read, scatter_of(question.spread));
    asked_ = question;
}

void OutlookMaker::answer(const OutlookQuestion& question,
                          const std::function<bool(const Outlook&)>& tell) {
    const bool begun = asked_ && same_question(*asked_, question);
    if (!begun) begin(question);
    outlook_.number = question.number;
    bool wanted = true;
    const auto go_on = [&] { return wanted = tell(outlook_); };
    if (!begun || outlook_.complete) go_on();
    if (!wanted || outlook_.complete) return;
    const NextPutts* next = next_of(question.putt, question.spread, go_on);
    if (!wanted) return;
    if (next) {
        const Scatter scatter = scatter_of(question.spread);
        if (!outlook_.odds) {
            outlook_.odds = odds_of(question.putt, question.read, scatter, *next);
            if (!go_on()) return;
        }
        Putt plain = question.putt;
        plain.finish = question.plain;
        outlook_.best = best_choice(plain, scatter, *next);
    }
    outlook_.complete = true;
    go_on();
}

}  // namespace dewtrail
