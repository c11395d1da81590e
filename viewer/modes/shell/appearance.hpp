#pragma once

#include <string>
#include <vector>

#include "greens/units.hpp"
#include "viewer/picture/layout.hpp"
#include "viewer/picture/palette.hpp"

namespace dewtrail {

/// The window's modes, in the order of their words and of the keys Ctrl 1 to Ctrl 6.
enum class ModeName { read, compare, practise, review, green, measure };
inline constexpr int mode_count = 6;
const char* words_for(ModeName mode);

/// How everything looks, whatever the mode; goes along from one to the next.
struct Appearance {
    Theme theme = Theme::dew;
    Units units{};
    double text = 1;
    bool less_motion = false;
    double width = design_width, height = design_height;
    bool swell = false;     ///< of the stroke's rhythm is heard
    bool own_help = false;  ///< whoever is around tells words and keys itself
    std::string pupil{};    ///< whose window it is; nobody's: empty
    std::vector<ModeName> modes = {ModeName::read};  ///< that there are to choose from, in order
};

inline Layout lay_out(const Appearance& a, bool note_shown, bool rows = false) {
    return lay_out(a.width, a.height, a.text, note_shown, rows);
}

}  // namespace dewtrail
