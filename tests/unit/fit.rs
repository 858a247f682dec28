//! Words of a picture are cut to their room.

use super::*;

#[test]
fn what_fits_stays_and_what_does_not_is_cut_to_the_room() {
    assert_eq!(shortened("Lime cordial", 700.0, 20, true), "Lime cordial");
    for name in ["W".repeat(200), "i".repeat(400), "Sirop d'été & <vanille> ".repeat(20)] {
        for room in [60.0, 300.0, 700.0] {
            let short = shortened(&name, room, 20, true);
            let wide = width(&short, 20, true);
            assert!(short.ends_with('…') && wide <= room && wide > room - 40.0, "{short}: {wide} in {room}");
        }
    }
    assert_eq!(shortened("WWW", 1.0, 20, true), "…");
}
