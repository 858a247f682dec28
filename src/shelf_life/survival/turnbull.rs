//! Turnbull's estimate: the distribution of refusals that the looks themselves give, without any law.

use super::Observation;

/// Where probability lies: in an interval that no look parts.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct RefusedShare {
    /// After this age.
    pub after: f64,
    /// Up to this one; infinite for what was never refused.
    pub up_to: f64,
    /// The share of lots.
    pub share: f64,
}

/// Below this change of every share the estimate is reached.
const SAME: f64 = 1e-13;
/// More steps than any table of a bar needs: then the last estimate is given.
const MOST_STEPS: usize = 200_000;

/// The estimate by self-consistency (Turnbull 1976, J R Stat Soc B 38:290), from half-open intervals; exact days count as
/// intervals of no length. Intervals without mass are left out.
pub fn turnbull(observations: &[Observation]) -> Vec<RefusedShare> {
    let inner = innermost(observations);
    let n = observations.len() as f64;
    let holds = |o: &Observation, (after, up_to): (f64, f64)| match o.is_exact() {
        true => after < o.off_at && o.off_at <= up_to,
        false => o.fine_at <= after && up_to <= o.off_at,
    };
    let inside: Vec<Vec<usize>> = observations
        .iter()
        .map(|o| inner.iter().enumerate().filter(|(_, interval)| holds(o, **interval)).map(|(k, _)| k).collect())
        .collect();
    let mut shares = vec![1.0 / inner.len().max(1) as f64; inner.len()];
    for _ in 0..MOST_STEPS {
        let mut next = vec![0.0; inner.len()];
        for held in &inside {
            let all: f64 = held.iter().filter_map(|k| shares.get(*k)).sum();
            for &k in held.iter().filter(|_| all > 0.0) {
                if let (Some(next), Some(share)) = (next.get_mut(k), shares.get(k)) {
                    *next += share / all / n;
                }
            }
        }
        let moved = shares.iter().zip(&next).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
        shares = next;
        if moved < SAME {
            break;
        }
    }
    let masses = inner.into_iter().zip(shares).map(|((after, up_to), share)| RefusedShare { after, up_to, share });
    masses.filter(|mass| mass.share > 1e-9).collect()
}

/// The intervals that begin with a beginning, end with an end, and have neither between.
fn innermost(observations: &[Observation]) -> Vec<(f64, f64)> {
    // An exact day is the end of an interval that begins just before it.
    let begins = |o: &Observation| if o.is_exact() { o.off_at.next_down() } else { o.fine_at };
    let mut lows: Vec<f64> = observations.iter().map(begins).collect();
    let mut highs: Vec<f64> = observations.iter().map(|o| o.off_at).collect();
    for all in [&mut lows, &mut highs] {
        all.sort_by(f64::total_cmp);
        all.dedup();
    }
    let pairs = lows.iter().filter_map(|&low| {
        let high = *highs.iter().find(|high| **high > low)?;
        (!lows.iter().any(|other| *other > low && *other < high)).then_some((low, high))
    });
    pairs.collect()
}
