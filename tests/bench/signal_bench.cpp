// SPDX-License-Identifier: GPL-3.0-or-later
//
// How fast millivolts become temperatures, a visit's readings become verdicts and a decision's risks are
// integrated, beside SciPy's brentq on the same polynomials and quad on the same integrals, with the same
// inputs in the same run.
//
//   bench_signals [--inversions N] [--visits N] [--risks N] [--python FILE]
//
// Ends with 1 when SciPy's temperatures differ from these by more than 1e-6 K or its risks by more than 1e-7
// of themselves, with 2 when called wrongly. Without SciPy it says so and measures the rest.
#include <fmt/format.h>
#include <sys/wait.h>
#include <unistd.h>

#include <charconv>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "core/metrology/evaluate.h"
#include "core/metrology/risk.h"
#include "core/signal/thermocouple.h"
#include "core/signal/thermocouple_tables.h"

namespace spanwright {
namespace {

namespace fs = std::filesystem;
using Json = nlohmann::json;

constexpr unsigned kSeed = 20261125;
constexpr double kLargestDifference = 1e-6;      // K
constexpr double kLargestRiskDifference = 1e-7;  // of the risk
constexpr double kLeastRisk = 1e-12;

/// With the tolerances SciPy takes when none are given; E(t) is evaluated in nested form, as here.
constexpr const char* kScript = R"(
import json, math, sys, time
try:
    import scipy
    from scipy.integrate import quad
    from scipy.optimize import brentq
    from scipy.special import ndtr
except ImportError:
    sys.exit(9)
job = json.load(open(sys.argv[1]))
segments, k = job["segments"], job["exponential"]
def emf(t):
    i = 0
    while i + 1 < len(segments) and t > segments[i]["high"]:
        i += 1
    e = 0.0
    for c in reversed(segments[i]["coefficients"]):
        e = e * t + c
    if i > 0:
        e += k[0] * math.exp(k[1] * (t - k[2]) ** 2)
    return e
low, high = segments[0]["low"], segments[-1]["high"]
def celsius(mv, reference):
    total = mv + emf(reference)
    return brentq(lambda t: emf(t) - total, low, high)
start = time.perf_counter()
temperatures = [celsius(mv, job["reference"]) for mv in job["millivolts"]]
inversions = time.perf_counter() - start
start = time.perf_counter()
passed = 0
for visit in job["visits"]:
    good = True
    for mv, reading in visit:
        limit = 0.001 * job["span"]
        good = good and abs(reading - celsius(mv, job["reference"])) <= limit
    passed += good
visits = time.perf_counter() - start
def risks(low, high, accept_low, accept_high, mean, sd, u):
    def density(x):
        return math.exp(-0.5 * ((x - mean) / sd) ** 2) / (sd * math.sqrt(2 * math.pi))
    def accepted(x):
        down, up = (accept_low - x) / u, (accept_high - x) / u
        return density(x) * (ndtr(-down) - ndtr(-up) if down > 0 else ndtr(up) - ndtr(down))  # where tails are small
    def rejected(x):
        return density(x) * (ndtr((accept_low - x) / u) + ndtr((x - accept_high) / u))
    def over(f, a, b):
        bends = sorted(x + k * s for x, s in ((mean, sd), (accept_low, u), (accept_high, u)) for k in (-4, 0, 4)
                       if a < x + k * s < b)
        return quad(f, a, b, points=bends, limit=200, epsabs=0, epsrel=1e-9)[0] if a < b else 0.0
    first, last = mean - 39 * sd, mean + 39 * sd
    return (over(accepted, first, min(low, last)) + over(accepted, max(high, first), last),
            over(rejected, max(low, first), min(high, last)))
start = time.perf_counter()
global_risks = [risks(*case) for case in job["risks"]]
risk_seconds = time.perf_counter() - start
json.dump({"risks": global_risks, "risk_seconds": risk_seconds, "scipy": scipy.__version__, "temperatures": temperatures, "inversion_seconds": inversions,
           "visit_seconds": visits, "passed": passed}, open(sys.argv[2], "w"))
)";

struct Reading {
  double millivolts = 0.0;
  double shown = 0.0;
};
using Visit = std::vector<Reading>;

/// What a global risk is taken over.
struct RiskCase {
  ErrorLimits limits, acceptance;
  Population population;
  double standardUncertainty = 0.0;
};

struct Job {
  ChannelSetup setup;
  Celsius reference{23.0};
  std::vector<double> millivolts;
  std::vector<Visit> visits;
  std::vector<RiskCase> risks;
};

/// Tolerances of about 1, guard bands up to 30 % of them, subjects that spread by 0.2 to 1, ratios from 1
/// to 25.
std::vector<RiskCase> makeRisks(int count, std::mt19937& random) {
  std::uniform_real_distribution<double> uniform;
  std::vector<RiskCase> cases;
  for (int i = 0; i < count; ++i) {
    const ErrorLimits limits{-0.5 - uniform(random), 0.5 + uniform(random)};
    const double guard = 0.3 * uniform(random);
    cases.push_back({limits,
                     {limits.low * (1.0 - guard), limits.high * (1.0 - guard)},
                     {0.4 * uniform(random) - 0.2, 0.2 + 0.8 * uniform(random)},
                     0.02 + 0.48 * uniform(random)});
  }
  return cases;
}

/// A type K input from 0 to 1000 degC, five points up and down; errors of up to 1.25 K against 1 K of
/// tolerance.
Job makeJob(int inversions, int visits, int risks) {
  Job job;
  ThermocoupleSetup couple;
  couple.range = {0.0, 1000.0, Unit::celsius};
  job.setup = {couple, 0.0};
  std::mt19937 random(kSeed);
  std::uniform_real_distribution<double> temperatures(-200.0, 1300.0);
  std::uniform_real_distribution<double> errors(-1.25, 1.25);
  const auto emfAt = [&](double t) {
    return std::get<double>(thermocoupleMillivolts(couple.type, {t}, job.reference));
  };
  for (int i = 0; i < inversions; ++i)
    job.millivolts.push_back(emfAt(temperatures(random)));
  for (int i = 0; i < visits; ++i) {
    Visit visit;
    const double error = errors(random);
    for (const double t : {0.0, 250.0, 500.0, 750.0, 1000.0, 1000.0, 750.0, 500.0, 250.0, 0.0})
      visit.push_back({emfAt(t), t + error});
    job.visits.push_back(visit);
  }
  job.risks = makeRisks(risks, random);
  return job;
}

double secondsSince(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

struct Measured {
  double inversionSeconds = 0.0;
  double visitSeconds = 0.0;
  double riskSeconds = 0.0;
  std::vector<double> temperatures;
  std::vector<GlobalRisk> risks;
  int passed = 0;
};

Measured measure(const Job& job) {
  Measured measured;
  measured.temperatures.reserve(job.millivolts.size());
  auto start = std::chrono::steady_clock::now();
  for (const double emf : job.millivolts)
    measured.temperatures.push_back(
        std::get<double>(thermocoupleCelsius(ThermocoupleType::K, Millivolts{emf}, job.reference)));
  measured.inversionSeconds = secondsSince(start);

  Tolerance tolerance;
  tolerance.plus.percentOfSpan = tolerance.minus.percentOfSpan = 0.1;
  start = std::chrono::steady_clock::now();
  for (const Visit& visit : job.visits) {
    // The whole of it: the model, the points, each typed value brought to its unit, each reading judged.
    const PointModelPtr model = channelModel(job.setup);
    const std::vector<TestPoint> points =
        layOutPoints({{0.0, 25.0, 50.0, 75.0, 100.0}, RunOrder::upDown, 1, false, false}, *model, &job.setup,
                     Subject::channel);
    std::vector<Verdict> verdicts;
    for (std::size_t i = 0; i < visit.size(); ++i) {
      const Expected applied = model->normaliseApplied({visit[i].millivolts, Unit::millivolt}, job.reference);
      const Expected reading = model->normaliseReading({visit[i].shown, Unit::celsius});
      const Evaluation evaluation = evaluatePoint(points.at(i), *model, &job.setup, tolerance,
                                                  std::get<double>(applied), std::get<double>(reading));
      verdicts.push_back(std::get<PointResult>(evaluation).verdict);
    }
    measured.passed += overall(verdicts) == Verdict::pass ? 1 : 0;
  }
  measured.visitSeconds = secondsSince(start);

  start = std::chrono::steady_clock::now();
  for (const RiskCase& each : job.risks)
    measured.risks.push_back(
        globalRisk(each.limits, each.acceptance, each.population, each.standardUncertainty));
  measured.riskSeconds = secondsSince(start);
  return measured;
}

Json asJson(const Job& job) {
  Json document{{"reference", job.reference.value},
                {"span", 1000.0},
                {"exponential", {kTypeKA0, kTypeKA1, kTypeKA2}},
                {"millivolts", job.millivolts},
                {"segments", Json::array()},
                {"visits", Json::array()}};
  for (const CoupleSegment& segment : coupleSegments(ThermocoupleType::K))
    document["segments"].push_back(
        {{"low", segment.low},
         {"high", segment.high},
         {"coefficients", std::vector<double>(segment.coefficients.begin(), segment.coefficients.end())}});
  for (const Visit& visit : job.visits) {
    Json rows = Json::array();
    for (const Reading& reading : visit)
      rows.push_back({reading.millivolts, reading.shown});
    document["visits"].push_back(std::move(rows));
  }
  document["risks"] = Json::array();
  for (const RiskCase& each : job.risks)
    document["risks"].push_back({each.limits.low, each.limits.high, each.acceptance.low, each.acceptance.high,
                                 each.population.mean, each.population.sd, each.standardUncertainty});
  return document;
}

/// Runs a program without a shell; its exit status, or -1.
int runProgram(const std::vector<std::string>& words) {
  std::vector<char*> arguments;
  for (const auto& word : words)
    arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  const pid_t child = fork();
  if (child == 0) {
    execvp(arguments[0], arguments.data());
    _exit(127);
  }
  int status = 0;
  return child > 0 && waitpid(child, &status, 0) == child && WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/// What SciPy made of the same job, or nothing when it is not there.
std::optional<Json> bySciPy(const Job& job, const std::string& python) {
  const fs::path folder = fs::temp_directory_path() / fmt::format("bench_signals_{}", getpid());
  fs::create_directories(folder);
  std::ofstream(folder / "bench.py") << kScript;
  std::ofstream(folder / "job.json") << asJson(job).dump();
  const int status = runProgram({python, (folder / "bench.py").string(), (folder / "job.json").string(),
                                 (folder / "answer.json").string()});
  std::optional<Json> answer;
  if (status == 0)
    answer = Json::parse(std::ifstream(folder / "answer.json"));
  fs::remove_all(folder);
  return answer;
}

/// The largest difference of a risk from SciPy's, as a share of it (of 1e-12 for smaller ones).
double riskDifference(const Measured& ours, const Json& answer) {
  double largest = 0.0;
  for (std::size_t i = 0; i < ours.risks.size(); ++i) {
    const double accept = answer.at("risks")[i][0], reject = answer.at("risks")[i][1];
    largest = std::max({largest, std::abs(ours.risks[i].falseAccept - accept) / std::max(accept, kLeastRisk),
                        std::abs(ours.risks[i].falseReject - reject) / std::max(reject, kLeastRisk)});
  }
  return largest;
}

int compare(const Job& job, const Measured& ours, const std::string& python) {
  const std::optional<Json> answer = bySciPy(job, python);
  if (!answer) {
    std::cout << fmt::format("SciPy: {} has none, no comparison\n", python);
    return 0;
  }
  double largest = 0.0;
  for (std::size_t i = 0; i < ours.temperatures.size(); ++i)
    largest = std::max(largest, std::abs(ours.temperatures[i] - answer->at("temperatures")[i].get<double>()));
  const double inversions = answer->at("inversion_seconds");
  const double visits = answer->at("visit_seconds");
  std::cout << fmt::format(
      "SciPy {} brentq: {:.0f} inversions/s; ratio {:.1f}\n", answer->at("scipy").get<std::string>(),
      static_cast<double>(job.millivolts.size()) / inversions, inversions / ours.inversionSeconds);
  std::cout << fmt::format("SciPy brentq, same visits: {:.0f} visits/s; ratio {:.1f}\n",
                           static_cast<double>(job.visits.size()) / visits, visits / ours.visitSeconds);
  const double risks = answer->at("risk_seconds");
  std::cout << fmt::format("SciPy quad, same risks: {:.0f} pairs/s; ratio {:.1f}\n",
                           static_cast<double>(job.risks.size()) / risks, risks / ours.riskSeconds);
  const double riskShare = riskDifference(ours, *answer);
  std::cout << fmt::format(
      "largest difference of a temperature: {:.2e} K, of a risk: {:.1e} of it; visits passed: {} here, {} "
      "there\n",
      largest, riskShare, ours.passed, answer->at("passed").get<int>());
  const bool agree = largest <= kLargestDifference && riskShare <= kLargestRiskDifference &&
                     ours.passed == answer->at("passed").get<int>();
  if (!agree)
    std::cout << "the two do not agree\n";
  return agree ? 0 : 1;
}

int usage() {
  std::cerr << "bench_signals [--inversions N] [--visits N] [--risks N] [--python FILE]\n";
  return 2;
}

int benchMain(const std::vector<std::string>& words) {
  int inversions = 20'000;
  int visits = 2'000;
  int risks = 2'000;
  std::string python = "/usr/bin/python3";
  if (words.size() % 2 == 0)
    return usage();
  for (std::size_t i = 1; i + 1 < words.size(); i += 2) {
    const std::string& value = words[i + 1];
    if (words[i] == "--python") {
      python = value;
      continue;
    }
    if (words[i] != "--inversions" && words[i] != "--visits" && words[i] != "--risks")
      return usage();
    int& number = words[i] == "--inversions" ? inversions : words[i] == "--visits" ? visits : risks;
    const auto end = std::from_chars(value.data(), value.data() + value.size(), number);
    if (end.ec != std::errc() || end.ptr != value.data() + value.size() || number <= 0)
      return usage();
  }
  const Job job = makeJob(inversions, visits, risks);
  const Measured ours = measure(job);
  std::cout << fmt::format("{} inversions: {:.0f} inversions/s\n", inversions,
                           inversions / ours.inversionSeconds);
  std::cout << fmt::format("{} visits of 10 readings: {:.0f} visits/s\n", visits, visits / ours.visitSeconds);
  std::cout << fmt::format("{} pairs of global risks: {:.0f} pairs/s\n", risks, risks / ours.riskSeconds);
  std::cout.flush();
  return compare(job, ours, python);
}

}  // namespace
}  // namespace spanwright

int main(int argc, char** argv) {
  return spanwright::benchMain({argv, argv + argc});
}
