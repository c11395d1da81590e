#pragma once

#if defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
#define DEWTRAIL_SANITIZED 1
#endif
#elif defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define DEWTRAIL_SANITIZED 1
#endif
#ifndef DEWTRAIL_SANITIZED
#define DEWTRAIL_SANITIZED 0
#endif

namespace dewtrail::oracle {

/// Whether a sanitizer runs along, which makes everything some twenty times slower.
inline constexpr bool sanitized = DEWTRAIL_SANITIZED;

}  // namespace dewtrail::oracle
