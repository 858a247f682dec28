//! The normal quantile against an independent one, and that draws are normal and do not hang together.

use stillroom::shelf_life::draws::{normal_quantile, normals};

#[test]
fn quantile_agrees_with_an_independent_one() {
    // Python 3 statistics.NormalDist().inv_cdf (PPND16)
    for (p, z) in [
        (1e-10, -6.361340902404056),
        (1e-5, -4.2648907939228256),
        (0.01, -2.3263478740408408),
        (0.05, -1.6448536269514726),
        (0.25, -0.6744897501960817),
        (0.6, 0.2533471031357998),
        (0.975, 1.9599639845400536),
        (0.999, 3.090232306167813),
    ] {
        assert!((normal_quantile(p) - z).abs() < 2e-7 * z.abs(), "{p}: {}", normal_quantile(p));
    }
}

#[test]
fn draws_are_standard_normal_and_do_not_hang_together() {
    let n = 100_000;
    let (mut sum, mut squares, mut product) = (0.0, 0.0, 0.0);
    for draw in 0..n {
        let [a, b] = normals::<2>(7, draw);
        sum += a;
        squares += a * a;
        product += a * b;
    }
    let n = n as f64;
    // four standard errors
    assert!((sum / n).abs() < 4.0 / n.sqrt());
    assert!((squares / n - 1.0).abs() < 4.0 * (2.0 / n).sqrt());
    assert!((product / n).abs() < 4.0 / n.sqrt());
}
