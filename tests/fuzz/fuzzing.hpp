#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

/// What the fuzz targets share. Each defines LLVMFuzzerTestOneInput; a promise that is broken
/// aborts.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace dewtrail::fuzz {

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
    return {reinterpret_cast<const char*>(data), size};
}

/// Says which promise, and aborts.
void require(bool kept, const char* promise);

/// A folder of this process, in memory where that can be had; removed when it ends.
const std::filesystem::path& folder();

/// The folder's file of that name with these bytes.
std::filesystem::path file(const std::string& name, std::string_view bytes);

/// One line, not long, that can be printed.
void require_message(const std::string& message);

}  // namespace dewtrail::fuzz
