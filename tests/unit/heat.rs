//! The heat of a syrup against the tables.

use super::*;

#[test]
fn syrups_have_the_specific_heat_of_the_tables() {
    for brix in [20.0, 40.0, 64.0] {
        let syrup = Mixture::of(&[(Component::Sucrose, brix), (Component::Water, 100.0 - brix)]);
        let of_table = 4.1868 - 0.0297 * brix + 7.5e-5 * brix * 50.0;
        let ours = kj_per_kelvin(&syrup) * 10.0;
        assert!((ours / of_table - 1.0).abs() < 0.01, "{brix}: {ours} {of_table}");
    }
}
