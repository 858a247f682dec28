//! Names as keyboards write them: with accents in their letters or apart from them; and letters that a picture cannot draw.

use crate::kitchen::{Folder, Kitchen, run_in};
use stillroom::solver::Options;

const CARD: &str =
    "makes = \"1 L\"\n[parts]\n\"white sugar\" = \"as needed\"\nwater = \"as needed\"\n[target]\nbrix = 50\n";
const COMPOSED: &str = "p\u{e2}t\u{e9}";
const APART: &str = "pa\u{302}te\u{301}";

fn run(folder: &Folder, arguments: &[&str]) -> (Option<i32>, String) {
    let (code, page, said) = run_in(&folder.0, arguments);
    (code, said + &page)
}

/// Of very many unknown names only the first are held against the whole larder.
#[test]
fn very_many_unknown_names_are_not_each_guessed_at() {
    let parts: String = (0..200).map(|n| format!("\"strawbery {n}\" = \"1 g\"\n")).collect();
    let made = Kitchen::unstated("").solve(&format!("name = \"T\"\n[parts]\n{parts}"), &Options::default());
    let said = made.plain();
    assert_eq!(said.matches("nothing in the house is called").count(), 200);
    let guessed = said.matches("did you mean").count() + said.matches("which of these is it").count();
    assert!((1..=40).contains(&guessed), "{guessed}");
}

#[test]
fn a_card_is_found_by_its_file_however_the_accents_are_written() {
    for (on_disk, typed) in [(COMPOSED, APART), (APART, COMPOSED)] {
        let card = format!("name = \"Syrup\"\n{CARD}");
        let folder = Folder::new().with(&format!("{on_disk}.toml"), &card);
        let folder = folder.with(&format!("formulas/{on_disk} two.toml"), &card.replace("Syrup", "Other"));
        for (name, says) in [
            (typed.to_owned(), "Syrup"),
            (format!("{typed}.toml"), "Syrup"),
            (format!("./{typed}.toml"), "Syrup"),
            (format!("{typed} two"), "Other"),
            (format!("formulas/{typed} two.toml"), "Other"),
        ] {
            let (code, said) = run(&folder, &["solve", &name]);
            assert!(code == Some(0) && said.contains(says), "{name:?}: {said}");
        }
        let (code, _) = run(&folder, &["solve", &format!("{typed} three")]);
        assert_eq!(code, Some(2));
    }
}

#[test]
fn a_picture_says_which_letters_it_has_not() {
    let folder = Folder::new().with("ume.toml", &format!("name = \"Ume 梅酒梅\"\n{CARD}"));
    let (code, said) = run(&folder, &["solve", "ume.toml", "--chart", "ume.png"]);
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        code == Some(0) && said.contains("ume.png is drawn without `梅`, `酒`: its letters do not have them"),
        "{said}"
    );
    assert!(folder.0.join("ume.png").is_file());
    let (_, said) = run(&folder, &["solve", "ume.toml", "--chart", "ume.svg"]);
    assert!(!said.contains("is drawn without"), "{said}");
    assert!(std::fs::read_to_string(folder.0.join("ume.svg")).unwrap().contains("梅酒"));
    // what they have is drawn without a word
    let folder = Folder::new().with("bar.toml", &format!("name = \"Crème Ракия 10 °C – ½\"\n{CARD}"));
    let (_, said) = run(&folder, &["solve", "bar.toml", "--chart", "bar.png"]);
    assert!(!said.contains("is drawn without"), "{said}");
}

/// In which state a thing was bought changes nothing of fruit, purée and juice; where it makes another thing it is asked.
#[test]
fn a_word_of_its_state_makes_no_other_thing_of_fruit_and_juice() {
    let unknown = |name: &str| {
        let card = format!("name = \"T\"\n[parts]\nwater = \"1 L\"\n\"{name}\" = \"100 g\"\n");
        Kitchen::unstated("").solve(&card, &Options::default()).plain().contains("nothing in the house is called")
    };
    for name in [
        "frozen passion fruit pulp",
        "mango puree, frozen",
        "Himbeeren (TK)",
        "framboises surgelées",
        "clear apple juice",
        "unsweetened mango puree",
        "pure mango juice",
        "redcurrants, fresh or frozen",
        "fresh pink grapefruit juice",
        "overproof Jamaican rum",
    ] {
        assert!(!unknown(name), "{name}");
    }
    // a concentrate, a sauce that is sweet, a tin that is sweet, a leaf that the larder has dry alone
    for name in [
        "frozen lime juice",
        "unsweetened cranberry sauce",
        "unsweetened condensed milk",
        "sweetened mango juice",
        "fresh yarrow",
        "clear vinegar",
        "hot butter peanut",
    ] {
        assert!(unknown(name), "{name}");
    }
}
