#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <tuple>
#include <utility>

namespace dewtrail {

/// Weights of Dormand and Prince's method of order 8 with estimates of order 5 and 3, DOP853:
/// Hairer, Nørsett and Wanner, Solving Ordinary Differential Equations I, 2nd ed. (1993), II.10.
/// Zeros at the end of a row are left out.
namespace dop853 {

using Row = std::array<double, 16>;
inline constexpr std::size_t last_stage = 11, step = 12, dense_stage = 13, fifth = 16, third = 17,
                             dense = 18;
/// Rows 0 to 11 make the stages, 12 the step itself, 13 to 15 three more stages for the dense
/// output, 16 and 17 the errors, 18 to 21 the dense output.
inline constexpr std::array<Row, 22> weights{
    Row{},
    Row{0.05260015195876773},
    Row{0.0197250569845379, 0.0591751709536137},
    Row{0.02958758547680685, 0, 0.08876275643042054},
    Row{0.2413651341592667, 0, -0.8845494793282861, 0.924834003261792},
    Row{0.037037037037037035, 0, 0, 0.17082860872947386, 0.12546768756682242},
    Row{0.037109375, 0, 0, 0.17025221101954405, 0.06021653898045596, -0.017578125},
    Row{0.03709200011850479, 0, 0, 0.17038392571223998, 0.10726203044637328, -0.015319437748624402,
        0.008273789163814023},
    Row{0.6241109587160757, 0, 0, -3.3608926294469414, -0.868219346841726, 27.59209969944671,
        20.154067550477894, -43.48988418106996},
    Row{0.47766253643826434, 0, 0, -2.4881146199716677, -0.590290826836843, 21.230051448181193,
        15.279233632882423, -33.28821096898486, -0.020331201708508627},
    Row{-0.9371424300859873, 0, 0, 5.186372428844064, 1.0914373489967295, -8.149787010746927,
        -18.52006565999696, 22.739487099350505, 2.4936055526796523, -3.0467644718982196},
    Row{2.273310147516538, 0, 0, -10.53449546673725, -2.0008720582248625, -17.9589318631188,
        27.94888452941996, -2.8589982771350235, -8.87285693353063, 12.360567175794303,
        0.6433927460157636},
    Row{0.054293734116568765, 0, 0, 0, 0, 4.450312892752409, 1.8915178993145003, -5.801203960010585,
        0.3111643669578199, -0.1521609496625161, 0.20136540080403034, 0.04471061572777259},
    Row{0.056167502283047954, 0, 0, 0, 0, 0, 0.25350021021662483, -0.2462390374708025,
        -0.12419142326381637, 0.15329179827876568, 0.00820105229563469, 0.007567897660545699,
        -0.008298},
    Row{0.03183464816350214, 0, 0, 0, 0, 0.028300909672366776, 0.053541988307438566,
        -0.05492374857139099, 0, 0, -0.00010834732869724932, 0.0003825710908356584,
        -0.00034046500868740456, 0.1413124436746325},
    Row{-0.42889630158379194, 0, 0, 0, 0, -4.697621415361164, 7.683421196062599, 4.06898981839711,
        0.3567271874552811, 0, 0, 0, -0.0013990241651590145, 2.9475147891527724, -9.15095847217987},
    Row{0.01312004499419488, 0, 0, 0, 0, -1.2251564463762044, -0.4957589496572502,
        1.6643771824549864, -0.35032884874997366, 0.3341791187130175, 0.08192320648511571,
        -0.022355307863886294},
    Row{-0.18980075407240762, 0, 0, 0, 0, 4.450312892752409, 1.8915178993145003, -5.801203960010585,
        -0.4226823213237919, -0.1521609496625161, 0.20136540080403034, 0.02265179219836082},
    Row{-8.428938276109013, 0, 0, 0, 0, 0.5667149535193777, -3.0689499459498917, 2.38466765651207,
        2.117034582445028, -0.871391583777973, 2.2404374302607883, 0.6315787787694688,
        -0.08899033645133331, 18.148505520854727, -9.194632392478356, -4.436036387594894},
    Row{10.427508642579134, 0, 0, 0, 0, 242.28349177525817, 165.20045171727028, -374.5467547226902,
        -22.113666853125306, 7.733432668472264, -30.674084731089398, -9.332130526430229,
        15.697238121770845, -31.139403219565178, -9.35292435884448, 35.81684148639408},
    Row{19.985053242002433, 0, 0, 0, 0, -387.0373087493518, -189.17813819516758, 527.8081592054236,
        -11.57390253995963, 6.8812326946963, -1.0006050966910838, 0.7777137798053443,
        -2.778205752353508, -60.19669523126412, 84.32040550667716, 11.99229113618279},
    Row{-25.69393346270375, 0, 0, 0, 0, -154.18974869023643, -231.5293791760455, 357.6391179106141,
        93.40532418362432, -37.45832313645163, 104.0996495089623, 29.8402934266605,
        -43.53345659001114, 96.32455395918828, -39.17726167561544, -149.72683625798564},
};

constexpr std::size_t count(std::size_t row) {
    std::size_t n = 0;
    for (const double weight : weights[row]) n += weight != 0;
    return n;
}

/// Which stages a row needs.
template <std::size_t row>
constexpr std::array<std::size_t, count(row)> stages() {
    std::array<std::size_t, count(row)> found{};
    std::size_t n = 0;
    for (std::size_t i = 0; i < weights[row].size(); ++i)
        if (weights[row][i] != 0) found[n++] = i;
    return found;
}

}  // namespace dop853

/// One step after another of y' = f(y) by DOP853. f(y, rate) fills in the rate; only the
/// first `feeding` states appear in it, what follows them is summed up. Allocates nothing.
template <class State, std::size_t feeding = std::tuple_size_v<State>>
class DormandPrince {
  public:
    template <class F>
    void start(const F& f, const State& y) {
        y1_ = y;
        f(y1_, k_[dop853::step]);
    }

    /// From where the last step led, h on; to be tried again until the error is small enough.
    template <class F>
    void attempt(const F& f, double h) {
        h_ = h;
        attempt(f, std::make_index_sequence<dop853::last_stage>());
        y1_ = place<dop853::step, std::tuple_size_v<State>>();
    }

    /// Largest error of the attempt, each of the first n states weighed.
    template <std::size_t n>
    double error(const std::array<double, n>& weights) const {
        double fifth = 0, third = 0;
        for (std::size_t i = 0; i < n; ++i) {
            fifth = std::max(fifth, weights[i] * std::abs(sum<dop853::fifth>(i)));
            third = std::max(third, weights[i] * std::abs(sum<dop853::third>(i)));
        }
        // The small number: no error at all is no error.
        return h_ * fifth * fifth / std::sqrt(fifth * fifth + 0.01 * third * third + 1e-200);
    }

    /// Takes the attempt.
    template <class F>
    void settle(const F& f) {
        f(y1_, k_[dop853::step]);
        dense_ = false;
    }
    /// Before the next.
    void go_on() {
        y0_ = y1_;
        k_[0] = k_[dop853::step];
    }

    const State& before() const { return y0_; }
    const State& state() const { return y1_; }
    void give_up() { y1_ = y0_; }
    const State& rate_before() const { return k_[0]; }
    const State& rate() const { return k_[dop853::step]; }
    double length() const { return h_; }

    /// The state within the last step, at a share of it.
    template <class F>
    State within(const F& f, double share) {
        if (share == 0) return y0_;
        if (share == 1) return y1_;
        if (!dense_) prepare(f);
        const double rest = 1 - share;
        State y;
        for (std::size_t n = 0; n < y.size(); ++n) {
            const double high =
                c_[3][n] + share * (c_[4][n] + rest * (c_[5][n] + share * c_[6][n]));
            y[n] =
                y0_[n] + share * (c_[0][n] + rest * (c_[1][n] + share * (c_[2][n] + rest * high)));
        }
        return y;
    }

  private:
    template <std::size_t row, std::size_t... i>
    double sum(std::size_t n, std::index_sequence<i...>) const {
        constexpr auto stages = dop853::stages<row>();
        return (... + (dop853::weights[row][stages[i]] * k_[stages[i]][n]));
    }
    template <std::size_t row>
    double sum(std::size_t n) const {
        return sum<row>(n, std::make_index_sequence<dop853::count(row)>());
    }
    template <std::size_t row, std::size_t states = feeding>
    State place() const {
        State y;
        for (std::size_t n = 0; n < states; ++n) y[n] = y0_[n] + h_ * sum<row>(n);
        return y;
    }

    template <class F, std::size_t... i>
    void attempt(const F& f, std::index_sequence<i...>) {
        (f(place<i + 1>(), k_[i + 1]), ...);
    }

    template <class F>
    void prepare(const F& f) {
        f(place<dop853::dense_stage>(), k_[dop853::dense_stage]);
        f(place<dop853::dense_stage + 1>(), k_[dop853::dense_stage + 1]);
        f(place<dop853::dense_stage + 2>(), k_[dop853::dense_stage + 2]);
        for (std::size_t n = 0; n < y0_.size(); ++n) {
            const double whole = y1_[n] - y0_[n];
            c_[0][n] = whole;
            c_[1][n] = h_ * k_[0][n] - whole;
            c_[2][n] = 2.0 * whole - h_ * (k_[dop853::step][n] + k_[0][n]);
            c_[3][n] = h_ * sum<dop853::dense>(n);
            c_[4][n] = h_ * sum<dop853::dense + 1>(n);
            c_[5][n] = h_ * sum<dop853::dense + 2>(n);
            c_[6][n] = h_ * sum<dop853::dense + 3>(n);
        }
        dense_ = true;
    }

    State y0_{}, y1_{};
    std::array<State, 16> k_{};
    std::array<State, 7> c_{};
    double h_ = 0;
    bool dense_ = false;
};

}  // namespace dewtrail
