#include "viewer/picture/widgets/spread_fields.hpp"

#include "viewer/picture/widgets/setup_strip.hpp"

#include <algorithm>
#include <cmath>

namespace dewtrail {
namespace {

std::string caption(const Spread& spread, const std::vector<NamedSpread>& presets) {
    const auto index = preset_of(spread, presets);
    if (!index) return "your own";
    const std::string& name = presets[*index].name;
    return name == "tour" ? "tour player" : name + " handicap";
}

void draw_presets(Picture& picture, Targets& targets, const SpreadFields& what, double left,
                  double baseline, double width, const Attention& attention, const Look& look) {
    const Palette& c = look.colours;
    const auto now = preset_of(what.setup.spread, what.presets);
    const double column =
        width / static_cast<double>(std::max<std::size_t>(1, what.presets.size()));
    for (std::size_t i = 0; i < what.presets.size(); ++i) {
        const int index = static_cast<int>(i);
        const bool on = now == i, hot = attention.on(attention.hovered, What::preset, index);
        const Face face = on ? Face::sans_bold : Face::sans;
        const double x = std::round(left + static_cast<double>(i) * column);
        const std::string& name = what.presets[i].name;
        const double w = look.width(face, look.type(17), name);
        picture.push_back(
            Text{name, face, look.type(17), {x, baseline}, on || hot ? c.ink : c.ink2});
        if (on)
            add_rounded_rect(picture, {x, baseline + look.u(7), w, look.u(4)}, look.u(2),
                             c.heather);
        if (attention.on(attention.focused, What::preset, index))
            add_rounded_rect(picture, {x, baseline + look.u(13), w, look.u(3)}, look.u(1.5),
                             c.copper);
        targets.push_back(
            {What::preset,
             index,
             {x - look.u(6), baseline - look.type(24), w + look.u(12), look.type(36)}});
    }
}

}  // namespace

std::optional<std::size_t> preset_of(const Spread& spread,
                                     const std::vector<NamedSpread>& presets) {
    const auto found = std::find_if(presets.begin(), presets.end(),
                                    [&](const NamedSpread& p) { return p.spread == spread; });
    if (found == presets.end()) return std::nullopt;
    return static_cast<std::size_t>(found - presets.begin());
}

double draw_spread_fields(Picture& picture, Targets& targets, const SpreadFields& what, double left,
                          double top, double width, const Attention& attention, const Look& look) {
    const Palette& c = look.colours;
    const double baseline = std::round(top + look.type(18));
    picture.push_back(
        Text{"Your spread", Face::sans_bold, look.type(17), {left, baseline}, c.heather});
    picture.push_back(Text{caption(what.setup.spread, what.presets),
                           Face::sans,
                           look.type(16),
                           {std::round(left + width), baseline},
                           c.ink2,
                           Align::right});
    const double gap = look.u(24), cell_w = std::round((width - gap) / 2);
    const double row_h = field_height(look) - look.u(5);
    double y = std::round(baseline + look.type(12));
    const auto fields = spread_fields();
    for (std::size_t i = 0; i < fields.size(); ++i) {
        const double x = i % 2 == 0 ? left : std::round(left + cell_w + gap);
        draw_field(picture, targets, field_state(what.setup, fields[i], look.units), fields[i],
                   {x, y + static_cast<double>(i / 2) * row_h, cell_w, row_h}, what.typed,
                   attention, look);
    }
    y += 2 * row_h;
    draw_presets(picture, targets, what, left, std::round(y + look.type(20)), width, attention,
                 look);
    return y + look.type(20) + look.u(12);
}

void draw_spread_sheet(Picture& picture, Targets& targets, const SpreadFields& what,
                       const Attention& attention, const Look& look) {
    const Palette& c = look.colours;
    const double pad = look.u(24);
    const double w = look.u(296 * (1 + (look.layout.text - 1) * 0.7));
    const double h = look.type(18 + 12 + 20) + 2 * field_height(look) + look.u(18) + 1.4 * pad;
    const Rect& green = look.layout.green;
    const double bottom = look.layout.setup_strip.y - look.u(16);
    const Rect sheet{std::round(green.right() - w - 2 * pad - look.u(16)), std::round(bottom - h),
                     w + 2 * pad, h};
    add_rounded_rect(picture, sheet.grown(1), look.u(10), c.rule);
    add_rounded_rect(picture, sheet, look.u(10), c.paper);
    targets.push_back({What::note, 2, sheet});
    draw_spread_fields(picture, targets, what, std::round(sheet.x + pad),
                       std::round(sheet.y + 0.8 * pad), w, attention, look);
}

}  // namespace dewtrail
