//! Texts that are nearly what people write: pieces of the shipped inputs, put out of order, with numbers and letters that no
//! one would.

/// Numbers at the ends of what is written and beyond; other ways to write one.
const NUMBERS: [&str; 25] = [
    "0",
    "-1",
    "1",
    "1e308",
    "1e-308",
    "-0.0",
    "nan",
    "inf",
    "-inf",
    "99999999999999999999",
    "0.1",
    "1,5",
    "1.000,5",
    "1,000",
    "1 000",
    "½",
    "1/0",
    "1/3",
    "0x10",
    "1_000",
    "366",
    "100",
    "20.0001",
    "2147483648",
    "+262142",
];
/// Units, signs and words that mean something somewhere.
const WORDS: [&str; 40] = [
    " g",
    " ml",
    " L",
    " kg",
    " oz",
    " °C",
    " °F",
    " % ABV",
    " %",
    " g/L",
    " °Bx",
    " parts by weight",
    " part",
    "as needed",
    " pieces",
    " days",
    " a week",
    " to ",
    " up to ",
    "±",
    " GBP / L",
    " x 700 ml",
    "\"",
    "'",
    "\"\"\"",
    "[",
    "]",
    "{",
    "}",
    "=",
    ".",
    ",",
    "#",
    "\n",
    "\\",
    "\\u0000",
    "\u{202e}",
    "\u{feff}",
    "é",
    "糖",
];

/// A sequence that is the same for the same seed: splitmix64 (Steele, Lea and Flood, OOPSLA 2014).
pub struct Dice(pub u64);

impl Dice {
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e3779b97f4a7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58476d1ce4e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d049bb133111eb);
        z ^ (z >> 31)
    }

    pub fn below(&mut self, n: usize) -> usize {
        (self.next() % n.max(1) as u64) as usize
    }

    pub fn of<'a, T>(&mut self, all: &'a [T]) -> &'a T {
        &all[self.below(all.len())]
    }
}

/// The pieces that texts are made of.
#[derive(Default)]
pub struct Pieces {
    lines: Vec<String>,
    quoted: Vec<String>,
}

impl Pieces {
    pub fn learn(&mut self, text: &str) {
        self.lines.extend(text.lines().filter(|line| !line.is_empty()).map(str::to_owned));
        self.quoted.extend(text.split('"').skip(1).step_by(2).filter(|q| q.len() < 60).map(str::to_owned));
    }

    pub fn quoted(&self) -> &[String] {
        &self.quoted
    }

    /// The text with one to eight things changed.
    pub fn mutated(&self, text: &str, dice: &mut Dice) -> String {
        let mut text = text.to_owned();
        for _ in 0..=(dice.next() | 1 << 7).trailing_zeros() {
            text = self.changed(&text, dice);
        }
        text
    }

    fn changed(&self, text: &str, dice: &mut Dice) -> String {
        match dice.below(10) {
            0 | 1 => replaced(text, dice, &spans(text, |c| c.is_ascii_digit() || c == '.'), |dice| {
                dice.of(&NUMBERS).to_string()
            }),
            2 => replaced(text, dice, &inside_quotes(text), |dice| dice.of(&self.quoted).clone()),
            3 => replaced(text, dice, &spans(text, char::is_alphabetic), |dice| dice.of(&WORDS).trim().to_owned()),
            4 | 5 => {
                let mut lines: Vec<&str> = text.split('\n').collect();
                let at = dice.below(lines.len());
                match dice.below(5) {
                    0 => drop(lines.remove(at)),
                    1 => lines.insert(at, dice.of::<String>(&self.lines).as_str()),
                    2 => lines.swap(at, dice.below(text.split('\n').count())),
                    3 => lines.insert(at, lines[at]),
                    _ => lines.truncate(at + 1),
                }
                lines.join("\n")
            }
            6 => replaced(text, dice, &spans(text, |_| true), |_| String::new()),
            7 => replaced(text, dice, &inside_quotes(text), |dice| format!("{}{}", dice.of(&NUMBERS), dice.of(&WORDS))),
            _ => {
                let at = floor(text, dice.below(text.len() + 1));
                format!("{}{}{}", &text[..at], dice.of(&WORDS), &text[at..])
            }
        }
    }
}

fn floor(text: &str, at: usize) -> usize {
    (0..=at).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0)
}

/// Runs of such letters, at most a few letters long.
fn spans(text: &str, is: fn(char) -> bool) -> Vec<(usize, usize)> {
    let mut all: Vec<(usize, usize)> = Vec::new();
    for (at, c) in text.char_indices().filter(|(_, c)| is(*c)) {
        match all.last_mut() {
            Some((from, to)) if *to == at && at - *from < 12 => *to = at + c.len_utf8(),
            _ => all.push((at, at + c.len_utf8())),
        }
    }
    all
}

fn inside_quotes(text: &str) -> Vec<(usize, usize)> {
    let marks: Vec<usize> = text.match_indices('"').map(|(at, _)| at).collect();
    marks.chunks_exact(2).map(|pair| (pair[0] + 1, pair[1])).collect()
}

fn replaced(text: &str, dice: &mut Dice, spans: &[(usize, usize)], by: impl Fn(&mut Dice) -> String) -> String {
    if spans.is_empty() {
        return text.to_owned();
    }
    let (from, to) = *dice.of(spans);
    format!("{}{}{}", &text[..from], by(dice), &text[to..])
}
