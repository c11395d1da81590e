#include "viewer/text/glossary.hpp"

#include <algorithm>
#include <cctype>
#include <iterator>

namespace dewtrail {
namespace {

constexpr Explained words[] = {
    {"stimp", "Green speed: how many feet a ball rolls on the level off a stimpmeter’s ramp."},
    {"fall line", "The straight line downhill through the hole; its drop is at the low end."},
    {"aim spot", "Where the start line passes level with the hole: look at it, not at the hole."},
    {"cups out",
     "Cups are counted from the rim: two cups out is two cups’ width beyond it. Inches and feet "
     "are from the centre.",
     true},
    {"stand-in hole",
     "Putt to it as if the green were level: on the start line, as far away as the putt plays.",
     true},
    {"start spot", "A mark on the start line, a foot in front of the ball, to roll over."},
    {"apex", "Where the path is farthest from the straight line to the hole. Never aim at it."},
    {"pace", "How hard, told as a straight level putt of this length."},
    {"level putt",
     "How far the stroke would roll on the level, less the usual finish past the hole."},
    {finish_word,
     "How far past the hole the ball would stop if the hole were covered: a foot until you type "
     "another, enough to get there and still slow enough to drop."},
    {"room", "How far the aim or the pace alone may be off, and the ball still drops."},
    {"lag", "A putt too long to hole often: what counts is to leave it close."},
    {"ball at",
     "Where the ball lies round the hole, as on a clock: 12 is straight above it, 3 right of it."},
    {three_dots,
     "Three ways to say a slope: its size and the ball’s clock; along and across the putt, as a "
     "level shows it; or at ball, halfway and hole."},
    {"plan",
     "Seen from above: uphill is up, or the hole on an upright screen; where you face another way "
     "your left and right are marked."},
    {"drops toward", "The bearing in which the ground falls: 0 is up the plan, 90 to its right."},
    {"for your spread", "With the scatter of your own strokes: this opens it.", true},
    {"pace floor", "By this much the pace scatters, however short the putt."},
    {"slope read", "How far off you see the slope, two times in three, in any direction."},
    {"fall read",
     "By how much you see the slope fall the wrong way, two times in three: 30° are an hour of the "
     "clock."},
    {"a misread costs", "What the aim would be if the slope or the green speed were another."},
    {"strokes", "Strokes lost to it: what replacing only that by the truth would save."}};

bool same_letter(char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) ==
           std::tolower(static_cast<unsigned char>(b));
}

/// Asked of every text in every frame, mostly in vain: lengths are compared first.
bool is_or_has(std::string_view text, const Explained& word) {
    if (text.size() < word.word.size() || (text.size() > word.word.size() && !word.within))
        return false;
    return std::search(text.begin(), text.end(), word.word.begin(), word.word.end(), same_letter) !=
           text.end();
}

}  // namespace

std::span<const Explained> glossary() {
    return words;
}

const Explained* explained(std::string_view text) {
    const auto found = std::find_if(std::begin(words), std::end(words),
                                    [&](const Explained& word) { return is_or_has(text, word); });
    return found == std::end(words) ? nullptr : found;
}

}  // namespace dewtrail
