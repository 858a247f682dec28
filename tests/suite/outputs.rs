//! Files that a verb writes: nothing that the house wrote itself is ever lost to one.

use std::fs;

use crate::kitchen::Kitchen;

/// The demo house in a folder of its own, with what was counted.
fn demo() -> Kitchen {
    Kitchen::demo().with(&[("counted.csv", "product,amount,use_by\nLime cordial,1 L,2026-12-03\n")])
}

/// Every file of the house, by name.
fn files(house: &Kitchen) -> Vec<(String, Vec<u8>)> {
    let all = fs::read_dir(house.folder()).unwrap().map(|file| file.unwrap());
    let mut all: Vec<_> = all.map(|f| (f.file_name().into_string().unwrap(), fs::read(f.path()).unwrap())).collect();
    all.sort();
    all
}

#[test]
fn nothing_of_the_house_is_written_over() {
    let house = demo();
    fs::copy(house.folder().join("larder.toml"), house.folder().join("prices.csv")).unwrap();
    fs::write(house.folder().join("photo.svg"), "not ours").unwrap();
    let before = files(&house);
    let made = "2026-11-25";
    for (code, said, arguments) in [
        (2, "ends in .svg or .png", &["date", "plain-syrup.toml", "--made", made, "--chart", "plain-syrup.toml"][..]),
        (2, "ends in .svg or .png", &["cost", "plain-syrup.toml", "--chart", "x.jpg"]),
        (2, "ends in .csv", &["plan", ".", "--csv-prep", "larder.toml"]),
        (2, "read in this run", &["plan", ".", "--on-hand", "counted.csv", "--csv-prep", "./counted.csv"]),
        (2, "goes to the same file", &["plan", ".", "--csv-prep", "same.csv", "--csv-order", "./same.csv"]),
        (1, "did not write", &["plan", ".", "--csv-prep", "prices.csv"]),
        (1, "did not write", &["plan", ".", "--csv-order", "counted.csv"]),
        (1, "did not write", &["cost", "plain-syrup.toml", "--chart", "photo.svg"]),
        (1, "there is no such folder", &["plan", ".", "--csv-prep", "nowhere/prep.csv"]),
        // where one cannot be written, none is
        (2, "ends in .csv", &["plan", ".", "--csv-prep", "prep.csv", "--csv-order", "order.txt"]),
    ] {
        let (exit, _, error) = house.run(arguments);
        assert!(exit == Some(code) && error.contains(said), "{arguments:?}: {exit:?}\n{error}");
        assert_eq!(files(&house), before, "{arguments:?}");
    }
}

#[test]
fn an_earlier_output_of_its_kind_is_replaced_whole() {
    let house = demo();
    let again = |arguments: &[&str]| {
        assert_eq!(house.run(arguments), house.run(arguments), "{arguments:?}");
        assert_ne!(house.run(arguments).0, Some(2), "{arguments:?}");
    };
    again(&["date", "plain-syrup.toml", "--made", "2026-11-25", "--chart", "life.svg"]);
    again(&["cost", "plain-syrup.toml", "--chart", "money.PNG"]);
    again(&["plan", ".", "--csv-prep", "prep.csv", "--csv-order", "order.csv"]);
    let written = ["life.svg", "money.PNG", "order.csv", "prep.csv"];
    assert!(written.iter().all(|name| fs::metadata(house.folder().join(name)).unwrap().len() > 100));
    assert!(files(&house).iter().all(|(name, _)| !name.ends_with(".part")));
    // the one table is not the other, and a chart is not a picture
    assert_eq!(house.run(&["plan", ".", "--csv-prep", "order.csv"]).0, Some(1));
    fs::rename(house.folder().join("money.PNG"), house.folder().join("money.svg")).unwrap();
    assert_eq!(house.run(&["cost", "plain-syrup.toml", "--chart", "money.svg"]).0, Some(1));
}

#[cfg(unix)]
#[test]
fn a_link_is_followed_to_what_it_means() {
    let house = demo();
    let at = |name: &str| house.folder().join(name);
    std::os::unix::fs::symlink(at("larder.toml"), at("link.csv")).unwrap();
    std::os::unix::fs::symlink(at("counted.csv"), at("other.csv")).unwrap();
    let before = files(&house);
    assert_eq!(house.run(&["plan", ".", "--csv-prep", "link.csv"]).0, Some(1));
    assert_eq!(house.run(&["plan", ".", "--on-hand", "counted.csv", "--csv-prep", "other.csv"]).0, Some(2));
    assert_eq!(files(&house), before);
}

#[test]
fn only_what_carries_the_mark_is_written_over() {
    let house = demo();
    let at = |name: &str| house.folder().join(name);
    // a photograph, a drawing that begins as ours do, a table that begins as ours does
    let picture = resvg::tiny_skia::Pixmap::new(2, 2).unwrap().encode_png().unwrap();
    fs::write(at("photo.png"), picture).unwrap();
    fs::write(at("drawn.svg"), "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"2\"></svg>").unwrap();
    fs::write(at("diary.csv"), "date,what happened\n2026-11-20,a flood\n").unwrap();
    fs::write(at("leaflet.pdf"), "%PDF-1.7\nnot ours").unwrap();
    let before = files(&house);
    for arguments in [
        &["cost", "plain-syrup.toml", "--chart", "photo.png"][..],
        &["cost", "plain-syrup.toml", "--chart", "drawn.svg"],
        &["plan", ".", "--csv-prep", "diary.csv"],
        &["card", "print", "plain-syrup", "-o", "leaflet.pdf"],
    ] {
        let (exit, _, error) = house.run(arguments);
        assert!(exit == Some(1) && error.contains("did not write"), "{arguments:?}: {exit:?}\n{error}");
        assert_eq!(files(&house), before, "{arguments:?}");
    }
    // what was written before is ours, and a reader of pictures that looks at every check sum reads it
    for name in ["own.png", "own.svg", "own.pdf"] {
        let verb = match name {
            "own.pdf" => &["card", "print", "plain-syrup", "-o"][..],
            _ => &["cost", "plain-syrup", "--chart"],
        };
        let arguments = [verb, &[name]].concat();
        for _ in 0..2 {
            let (exit, _, error) = house.run(&arguments);
            assert!(exit != Some(2) && !error.contains("written"), "{arguments:?}: {error}");
        }
        assert!(at(name).exists(), "{name}");
    }
    assert!(resvg::tiny_skia::Pixmap::decode_png(&fs::read(at("own.png")).unwrap()).is_ok());
}

#[cfg(unix)]
#[test]
fn a_link_that_leads_nowhere_stays_one() {
    let house = demo();
    let link = house.folder().join("gone.svg");
    std::os::unix::fs::symlink(house.folder().join("nowhere.svg"), &link).unwrap();
    assert_eq!(house.run(&["cost", "plain-syrup.toml", "--chart", "gone.svg"]).0, Some(1));
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
}
