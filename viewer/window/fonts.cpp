#include "viewer/window/fonts.hpp"

#include <fontconfig/fontconfig.h>

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
    float x = 0;
    sf::Uint32 before = 0;
    for (const sf::Uint32 letter : sf::String::fromUtf8(words.begin(), words.end())) {
        x += font.getKerning(before, letter, pixels) + font.getGlyph(letter, pixels, false).advance;
        before = letter;
    }
    return static_cast<double>(x);
}

}  // namespace dewtrail
