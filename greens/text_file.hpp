#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

namespace dewtrail {

/// InputError about the whole file, named as given.
[[noreturn]] void refuse_file(const std::filesystem::path& path, const std::string& problem,
                              const std::string& remedy);

/// InputError, naming the file as given, if it is missing, no regular file, or in a folder that may
/// not be entered.
void check_is_file(const std::filesystem::path& path);

/// The bytes of a regular file no larger than `most_bytes`, without a UTF-8 byte order mark.
/// InputError, naming the file as given, if it is missing, no regular file, too large or
/// unreadable.
std::string read_text_file(const std::filesystem::path& path, std::uintmax_t most_bytes);

}  // namespace dewtrail
