#pragma once

#include <filesystem>
#include <optional>

/// Where the program keeps things, by the XDG base directory specification: a folder that is not
/// absolute counts as not set.
namespace dewtrail {

/// $XDG_CONFIG_HOME/dewtrail, else $HOME/.config/dewtrail; none where neither is set.
std::optional<std::filesystem::path> config_folder();

/// $XDG_DATA_HOME/dewtrail, else $HOME/.local/share/dewtrail; none where neither is set.
std::optional<std::filesystem::path> data_folder();

/// $XDG_STATE_HOME/dewtrail, else $HOME/.local/state/dewtrail; none where neither is set.
std::optional<std::filesystem::path> state_folder();

}  // namespace dewtrail
