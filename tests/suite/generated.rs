//! Generated cases: the same ones at every run, and no file of those that failed.

use proptest::strategy::Strategy;
use proptest::test_runner::{Config, RngAlgorithm, RngSeed, TestCaseError, TestRng, TestRunner};

/// So many cases of a seed, for `proptest!`.
pub fn config(cases: u32, seed: u64) -> Config {
    Config { cases, failure_persistence: None, rng_seed: RngSeed::Fixed(seed), ..Config::default() }
}

pub fn runner(cases: u32) -> TestRunner {
    let config = Config { cases, failure_persistence: None, ..Config::default() };
    TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha))
}

/// Holds for so many cases.
pub fn check<S: Strategy>(cases: u32, strategy: S, test: impl Fn(S::Value) -> Result<(), TestCaseError>) {
    runner(cases).run(&strategy, test).unwrap();
}
