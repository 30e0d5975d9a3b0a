// The life of worksheets/rotating-bending.md by samples, compiled: how near to it the page comes. One thread.
// Standard input: count, runs, number of inputs, number of common causes, then for each input "name value parts" with "distribution u freedom cause" for each part (cause: number of
// what several inputs have in common, -1 where it is the part's own), then pairs of symbol and value. Prints milliseconds of each run, then mean, standard deviation and 95 % interval of the last.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <iostream>
#include <map>
#include <random>
#include <string>
#include <vector>

struct Part { char kind; double scale, freedom; int cause; };
struct Input { double value; std::vector<Part> parts; };

// xoshiro256+ by Blackman and Vigna; from memory.
struct Words {
  using result_type = uint64_t;
  uint64_t s[4];
  explicit Words(uint64_t seed) { for (auto& w : s) { seed += 0x9e3779b97f4a7c15; uint64_t z = seed; z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9; z = (z ^ (z >> 27)) * 0x94d049bb133111eb; w = z ^ (z >> 31); } }
  static constexpr uint64_t min() { return 0; }
  static constexpr uint64_t max() { return ~0ull; }
  uint64_t operator()() {
    const uint64_t word = s[0] + s[3], t = s[1] << 17;
    s[2] ^= s[0]; s[3] ^= s[1]; s[1] ^= s[2]; s[0] ^= s[3]; s[2] ^= t; s[3] = (s[3] << 45) | (s[3] >> 19);
    return word;
  }
  double uniform() { return (double((*this)() >> 12) + 0.5) * 0x1p-52; }
};

// Normal samples by the ziggurat of 256 layers (Marsaglia and Tsang).
struct Normal {
  double edge[257], height[257];
  Normal() {
    const double r = 3.6541528853610088, area = r * std::exp(-r * r / 2) + std::sqrt(M_PI / 2) * std::erfc(r / std::sqrt(2));
    edge[0] = area / std::exp(-r * r / 2); edge[1] = r;
    for (int i = 1; i < 256; i++) edge[i + 1] = i == 255 ? 0 : std::sqrt(-2 * std::log(std::min(1.0, std::exp(-edge[i] * edge[i] / 2) + area / edge[i])));
    for (int i = 0; i <= 256; i++) height[i] = std::exp(-edge[i] * edge[i] / 2);
  }
  double operator()(Words& words) const {
    for (;;) {
      const uint64_t word = words();
      const int layer = word & 255;
      const double x = (double(int64_t(word) >> 11) + 0.5) * 0x1p-52 * edge[layer];
      if (std::fabs(x) < edge[layer + 1]) return x;
      if (layer == 0) for (;;) {
        const double beyond = -std::log(words.uniform()) / edge[1];
        if (-2 * std::log(words.uniform()) > beyond * beyond) return x < 0 ? -edge[1] - beyond : edge[1] + beyond;
      }
      if (height[layer] + words.uniform() * (height[layer + 1] - height[layer]) < std::exp(-x * x / 2)) return x;
    }
  }
};

int main() {
  size_t count; int runs, inputs, common;
  std::cin >> count >> runs >> inputs >> common;
  std::map<std::string, Input> all;
  for (int i = 0; i < inputs; i++) {
    std::string name; size_t parts; Input input;
    std::cin >> name >> input.value >> parts;
    for (size_t p = 0; p < parts; p++) { std::string kind; Part part; std::cin >> kind >> part.scale >> part.freedom >> part.cause; part.kind = kind[0]; if (part.kind == 'r') part.scale *= std::sqrt(3.0); input.parts.push_back(part); }
    all[name] = input;
  }
  std::map<std::string, double> given; std::string name; double value;
  while (std::cin >> name >> value) given[name] = value;
  const Normal normal;
  double mean = 0, deviation = 0, low = 0, high = 0;
  for (int run = 0; run < runs; run++) {
    const auto begun = std::chrono::steady_clock::now();
    Words words(run + 1);
    double causes[8] = {};
    const auto draw = [&](const Input& input) {
      double x = input.value;
      for (const auto& part : input.parts) {
        if (part.cause >= 0) { x += part.scale * causes[part.cause]; continue; }
        if (part.kind == 'n') { x += part.scale * normal(words); continue; }
        if (part.kind == 'r') { x += part.scale * (2 * words.uniform() - 1); continue; }
        double square;
        if (part.freedom == 3) { const double a = normal(words), b = normal(words), c = normal(words); square = a * a + b * b + c * c; }
        else square = std::chi_squared_distribution<double>(part.freedom)(words);
        x += part.scale * normal(words) * std::sqrt(part.freedom / square);
      }
      return x;
    };
    const Input &is1 = all["s_1"], &is2 = all["s_2"], &is3 = all["s_3"], &iL = all["L"], &ix = all["x_s"], &id = all["d"], &iF = all["F"], &iF0 = all["F_0"];
    const Input &iz = all["z_e"], &iS = all["S_ut"], &ic = all["c_e"], &ir = all["r_f"];
    const double kF = given["k_F"], K = 1 + given["q"] * (given["K_t"] - 1), Ne = std::log10(given["N_e"]), sigmaB = given["sigma_b"], cl = given["c_l"];
    const double factors = given["c_a"] * given["k_a"] * given["k_c"] * given["k_d"] * given["k_e"];
    const bool isLong = given["N_e"] > 1e6;
    std::vector<double> lives(count);
    for (auto& life : lives) {
      for (double& cause : causes) cause = 0;
      for (int i = 0; i < common; i++) causes[i] = 2 * words.uniform() - 1;
      const double L = draw(iL), s1 = draw(is1), s2 = draw(is2), s3 = draw(is3), x = draw(ix), d = draw(id), W = draw(iF) - draw(iF0), z = draw(iz);
      const double Sut = draw(iS), ce = draw(ic), rf = draw(ir);
      const double F1 = kF * W, F2 = W - F1, RA = (F1 * (s2 + s3) + F2 * s3) / L;
      const double M = RA * x - F1 * std::max(x - s1, 0.0) - F2 * std::max(x - s1 - s2, 0.0);
      const double sigma = M * (d / 2) / (M_PI * d * d * d * d / 64) + z * sigmaB, mm = d / 1e-3;
      const double kb = std::min(1.0, d <= 0.051 ? 1.24 * std::pow(mm, -0.107) : 1.51 * std::pow(mm, -0.157));
      const double s = Sut / 1e6, f = rf * (isLong || Sut < 483e6 ? 0.9 : 1.06 - 4.1e-4 * s + 1.5e-7 * s * s), fS = std::log10(f * s);
      const double Se = factors * kb * ce * std::min(0.5 * Sut, 700e6);
      const double B = (3 - Ne) / (fS - std::log10(Se / 1e6)), A = 3 + cl - B * fS;
      life = std::pow(10.0, A + B * std::log10(K * sigma / 1e6));
    }
    mean = 0; for (double life : lives) mean += life; mean /= count;
    deviation = 0; for (double life : lives) deviation += (life - mean) * (life - mean); deviation = std::sqrt(deviation / (count - 1));
    const size_t below = size_t(0.025 * count), above = size_t(0.975 * count);
    std::nth_element(lives.begin(), lives.begin() + above, lives.end()); high = lives[above];
    std::nth_element(lives.begin(), lives.begin() + below, lives.begin() + above); low = lives[below];
    std::cout << std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begun).count() << '\n';
  }
  std::cout.precision(12);
  std::cout << mean << ' ' << deviation << ' ' << low << ' ' << high << '\n';
}
