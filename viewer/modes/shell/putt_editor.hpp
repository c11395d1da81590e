#pragma once

#include "viewer/modes/shell/shell.hpp"
#include "viewer/putt/fields.hpp"

namespace dewtrail {

/// The ruled fields of a putt, for every mode that sets one up: typed, stepped, slid, and reached
/// by keys.
class PuttEditor {
  public:
    using Edit = std::function<void(Setup&)>;
    struct Putt {
        std::function<Setup()> now;
        std::function<void(const Edit& edit, const std::string& name)> change;
        std::function<void()> ready{};  ///< before one of its fields gets the focus
        double size = 28;               ///< of its figures
        bool spread = false;            ///< the player's spread is among the fields
    };
    PuttEditor(Shell& shell, Putt putt) : shell_(shell), putt_(std::move(putt)) {}

    void add_values(std::vector<Value>& values) const;
    void add_commands(Commands& commands) const;
    void step(Field field, double steps, bool fine, const std::string& name) const;

  private:
    Value value(Field field, const std::shared_ptr<const Setup>& setup) const;
    void focus(Field field) const;

    Shell& shell_;
    Putt putt_;
};

}  // namespace dewtrail
