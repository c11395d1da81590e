#include "viewer/window/fonts.hpp"

#include <fontconfig/fontconfig.h>

#include <SFML/System/Utf.hpp>
#include <cmath>

#include "viewer/practice/player.hpp"

namespace dewtrail {
namespace {

constexpr std::array<const char*, 5> patterns = {
    "Gentium Book Plus:regular", "Gentium Book Plus:italic", "Gentium Book Plus:bold",
    "Lato:regular", "Lato:bold"};

/// The file that fontconfig takes for a pattern; empty if it knows none.
std::string font_file(const char* pattern) {
    FcPattern* wanted = FcNameParse(reinterpret_cast<const FcChar8*>(pattern));
    FcConfigSubstitute(nullptr, wanted, FcMatchPattern);
    FcDefaultSubstitute(wanted);
    FcResult result;
    FcPattern* match = FcFontMatch(nullptr, wanted, &result);
    std::string file;
    FcChar8* name = nullptr;
    if (match && FcPatternGetString(match, FC_FILE, 0, &name) == FcResultMatch)
        file = reinterpret_cast<const char*>(name);
    if (match) FcPatternDestroy(match);
    FcPatternDestroy(wanted);
    return file;
}

}  // namespace

Fonts::Fonts() {
    FcInit();
    for (std::size_t i = 0; i < count; ++i) {
        files_[i] = font_file(patterns[i]);
        if (files_[i].empty() || !fonts_[i].loadFromFile(files_[i]))
            throw OutsideError(std::string("no font could be read for ") + patterns[i] +
                               ": install fonts-sil-gentiumplus and fonts-lato");
    }
    FcFini();
}

double Fonts::width(Face which, double size, std::string_view words) const {
    const sf::Font& font = face(which);
    const auto pixels = static_cast<unsigned>(std::max(1.0, std::round(size)));
    const auto [place, fresh] = steps_.try_emplace({which, pixels});
    Steps& steps = place->second;
    if (fresh) steps.fill(-1);
    const auto step = [&](sf::Uint32 before, sf::Uint32 letter) {
        return font.getKerning(before, letter, pixels) +
               font.getGlyph(letter, pixels, false).advance;
    };
    float x = 0;
    sf::Uint32 before = 0, letter = 0;
    for (auto at = words.begin(); at != words.end(); before = letter) {
        at = sf::Utf8::decode(at, words.end(), letter);
        const sf::Uint32 row = before == 0 ? 0 : before - first_kept + 1;
        if (row > kept || letter - first_kept >= kept) {
            x += step(before, letter);
            continue;
        }
        float& known = steps[row * kept + (letter - first_kept)];
        if (known < 0) known = step(before, letter);
        x += known;
    }
    return static_cast<double>(x);
}

}  // namespace dewtrail
