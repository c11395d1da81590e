#pragma once

#include <SFML/Audio/Sound.hpp>
#include <SFML/Audio/SoundBuffer.hpp>
#include <memory>

#include "viewer/practice/rehearse/swell.hpp"

namespace dewtrail {

/// The rhythm of a stroke over and over. Where there is no sound device SFML plays nothing; and it
/// looks for one only when the swell is asked for.
class SwellSound {
  public:
    /// Told to end it swings on to the ball, where it is silent: cut off it would click.
    void set(bool on, double swing_s) {
        if (playing_ && playing_->sound.getStatus() == sf::Sound::Playing)
            return playing_->sound.setLoop(on);
        if (!on) return;
        playing_ = std::make_unique<Playing>();
        constexpr unsigned per_second = 44100;
        const auto samples = swell_samples(swing_s, per_second);
        if (!playing_->buffer.loadFromSamples(samples.data(), samples.size(), 1, per_second))
            return;
        playing_->sound.setBuffer(playing_->buffer);
        playing_->sound.setLoop(true);
        playing_->sound.play();
    }

  private:
    struct Playing {
        sf::SoundBuffer buffer;
        sf::Sound sound;
    };
    std::unique_ptr<Playing> playing_;
};

}  // namespace dewtrail
