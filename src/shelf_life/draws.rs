//! Seeded normal draws. Every number is a function of (seed, draw, slot) alone, so it does not matter on how many cores,
//! in which order or for how many stores they are drawn: the same seed gives the same digits, and a draw meets two
//! products with the same luck.

/// A uniform number in the open interval (0, 1): the output function of splitmix64 (Steele, Lea & Flood 2014, Fast
/// splittable pseudorandom number generators, OOPSLA; constants of its public-domain reference code) at a counter.
fn uniform(seed: u64, counter: u64) -> f64 {
    let mut z = seed.wrapping_add(counter.wrapping_add(1).wrapping_mul(0x9e37_79b9_7f4a_7c15));
    z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^= z >> 31;
    ((z >> 11) as f64 + 0.5) / (1u64 << 53) as f64
}

/// The standard normal number below which a share `p` of all lies, `p` between 0 and 1, neither of them;
/// elsewhere it has no meaning. Wichura 1988, Algorithm AS 241, PPND7, Appl Stat 37:477; about 7 digits (checked in the tests
/// against an independent implementation of PPND16). Coefficients from memory, checked.
pub fn normal_quantile(p: f64) -> f64 {
    let q = p - 0.5;
    if q.abs() <= 0.425 {
        let r = 0.180625 - q * q;
        return q * (((59.109374720 * r + 159.29113202) * r + 50.434271938) * r + 3.3871327179)
            / (((67.187563600 * r + 78.757757664) * r + 17.895169469) * r + 1.0);
    }
    let r = (-p.min(1.0 - p).ln()).sqrt();
    let z = if r <= 5.0 {
        let r = r - 1.6;
        (((0.17023821103 * r + 1.3067284816) * r + 2.7568153900) * r + 1.4234372777)
            / ((0.12021132975 * r + 0.73700164250) * r + 1.0)
    } else {
        let r = r - 5.0;
        (((0.017337203997 * r + 0.42868294337) * r + 3.0812263860) * r + 6.6579051150)
            / ((0.012258202635 * r + 0.24197894225) * r + 1.0)
    };
    z.copysign(q)
}

/// The standard normal numbers of one draw: the same of the same seed, independent of those of any other draw.
pub fn normals<const SLOTS: usize>(seed: u64, draw: u64) -> [f64; SLOTS] {
    let first = draw.wrapping_mul(SLOTS as u64);
    std::array::from_fn(|slot| normal_quantile(uniform(seed, first.wrapping_add(slot as u64))))
}
