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

void draw_presets(const Canvas& canvas, const SpreadFields& what, double left, double baseline,
                  double width) {
    const auto now = preset_of(what.setup.spread, what.presets);
    const double column =
        width / static_cast<double>(std::max<std::size_t>(1, what.presets.size()));
    for (std::size_t i = 0; i < what.presets.size(); ++i)
        Brush(canvas).word({what.presets[i].name, What::preset, static_cast<int>(i), now == i, 17,
                            Align::left, true},
                           std::round(left + static_cast<double>(i) * column), baseline);
}

/// Three where the names have room beside each other.
std::size_t columns_in(double width, const Look& look) {
    return width >= look.type(3 * 96) ? 3 : 2;
}

double grid_height(double width, const Look& look) {
    const std::size_t columns = columns_in(width, look);
    const double row_h = field_height(look) - look.u(5);
    return static_cast<double>((spread_fields().size() + columns - 1) / columns) * row_h;
}

}  // namespace

std::optional<std::size_t> preset_of(const Spread& spread,
                                     const std::vector<NamedSpread>& presets) {
    const auto found = std::find_if(presets.begin(), presets.end(),
                                    [&](const NamedSpread& p) { return p.spread == spread; });
    if (found == presets.end()) return std::nullopt;
    return static_cast<std::size_t>(found - presets.begin());
}

double draw_spread_fields(const Canvas& canvas, const SpreadFields& what, double left, double top,
                          double width) {
    const Look& look = canvas.look;
    const double baseline = std::round(top + look.type(18));
    Brush brush(canvas);
    brush.write("Your spread", Face::sans_bold, 17, left, baseline, look.colours.heather);
    brush.write(caption(what.setup.spread, what.presets), Face::sans, 16, left + width, baseline,
                look.colours.ink2, Align::right);
    const std::size_t columns = columns_in(width, look);
    const double gap = look.u(columns == 2 ? 24 : 16);
    const double pitch = (width + gap) / static_cast<double>(columns);
    const double row_h = field_height(look) - look.u(5);
    double y = std::round(baseline + look.type(12));
    const auto fields = spread_fields();
    for (std::size_t i = 0; i < fields.size(); ++i) {
        const double x = std::round(left + static_cast<double>(i % columns) * pitch);
        draw_field(
            canvas, field_state(what.setup, fields[i], look.units), fields[i],
            {x, y + static_cast<double>(i / columns) * row_h, std::round(pitch - gap), row_h},
            what.typed);
    }
    y += grid_height(width, look);
    draw_presets(canvas, what, left, std::round(y + look.type(20)), width);
    return y + look.type(20) + look.u(12);
}

void draw_spread_sheet(const Canvas& canvas, const SpreadFields& what) {
    const Look& look = canvas.look;
    const double pad = look.u(24);
    const double w = look.u(296 * (1 + (look.layout.text - 1) * 0.7));
    const double h = look.type(18 + 12 + 20) + grid_height(w, look) + look.u(28) + 1.4 * pad;
    const Rect& green = look.layout.green;
    const double bottom = look.layout.setup_strip.y - look.u(16);
    const Rect sheet{std::round(green.right() - w - 2 * pad - look.u(16)), std::round(bottom - h),
                     w + 2 * pad, h};
    add_edged_paper(canvas, sheet, 10);
    canvas.targets.push_back({What::note, 2, sheet});
    draw_spread_fields(canvas, what, std::round(sheet.x + pad), std::round(sheet.y + 0.8 * pad), w);
}

}  // namespace dewtrail
