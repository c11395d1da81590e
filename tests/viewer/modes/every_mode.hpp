#pragma once

#include "support/temporary_folder.hpp"
#include "viewer/modes/compare/compare_mode.hpp"
#include "viewer/modes/drawn_mode.hpp"
#include "viewer/modes/green/green_mode.hpp"
#include "viewer/modes/measure/measure_mode.hpp"
#include "viewer/modes/practise/practise_mode.hpp"
#include "viewer/modes/review/review_mode.hpp"

namespace dewtrail {

/// As a keyboard does it: the key, then what it writes.
inline void strike(Shell& shell, const std::string& characters) {
    for (const char c : characters) {
        shell.press({c == ' ' ? key::space : c});
        shell.enter(std::string(1, c));
    }
}

struct EveryMode : private TemporaryFolder {
    EveryMode() {
        PractiseStart practise;
        practise.memory_folder = path() / "practise";
        practise.plan.seed = 7;
        practise.plan.date = "2026-05-01";
        ReviewStart review;
        review.memory_folder = path() / "review";
        ReadStart read = quiet_start();
        read.modes = quiet_look().modes;
        shells.push_back(Shell::with<ReadMode>(read, read));
        shells.push_back(Shell::with<CompareMode>(quiet_look(), CompareStart{}));
        shells.push_back(Shell::with<PractiseMode>(quiet_look(), practise));
        shells.push_back(Shell::with<ReviewMode>(quiet_look(), review));
        shells.push_back(Shell::with<GreenMode>(quiet_look(), GreenStart{}));
        shells.push_back(
            Shell::with<MeasureMode>(quiet_look(), MeasureStart{path() / "measure", {}, 5}));
        for (const auto& shell : shells) shell->frame(type_width);
    }
    std::vector<std::unique_ptr<Shell>> shells;
};

inline bool wants_another_mode(Shell& shell) {
    bool wants = false;
    for (const Wish& wish : shell.take_wishes()) wants |= wish.kind == Wish::Kind::change_mode;
    return wants;
}

}  // namespace dewtrail
