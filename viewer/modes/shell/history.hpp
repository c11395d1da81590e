#pragma once

#include <cstddef>
#include <deque>
#include <optional>

namespace dewtrail {

/// Undo and redo of whole values, so many steps back. A step is remembered before a change begins;
/// one drag is one step.
template <class Value>
class History {
  public:
    explicit History(std::size_t most = 200) : most_(most) {}

    /// The value as it was before a change that has now been made.
    void remember(Value before) {
        past_.push_back(std::move(before));
        if (past_.size() > most_) past_.pop_front();
        future_.clear();
    }

    std::optional<Value> undo(const Value& now) { return step(past_, future_, now); }
    std::optional<Value> redo(const Value& now) { return step(future_, past_, now); }

    std::size_t undo_depth() const { return past_.size(); }
    std::size_t redo_depth() const { return future_.size(); }

  private:
    static std::optional<Value> step(std::deque<Value>& from, std::deque<Value>& to,
                                     const Value& now) {
        if (from.empty()) return std::nullopt;
        to.push_back(now);
        Value value = std::move(from.back());
        from.pop_back();
        return value;
    }

    std::size_t most_;
    std::deque<Value> past_, future_;
};

}  // namespace dewtrail
