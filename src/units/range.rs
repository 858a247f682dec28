//! What a number has to lie between, written once: what is read and what a refusal says cannot differ.

use super::display::short;
use super::readers;

/// The numbers that an option or a key takes.
#[derive(Clone, Copy, Debug)]
pub(crate) struct NumberRange {
    /// What they count: "guests".
    what: &'static str,
    least: f64,
    most: f64,
    taken: Taken,
}

/// Which of the numbers between both ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Taken {
    /// Whole ones, both ends among them.
    Whole,
    /// All of them, the least not among them.
    Above,
    /// All of them, the most not among them.
    Below,
    /// All of them, both ends among them.
    All,
}

impl NumberRange {
    pub(crate) const fn whole(least: f64, most: f64, what: &'static str) -> Self {
        Self { what, least, most, taken: Taken::Whole }
    }

    pub(crate) const fn above(least: f64, most: f64, what: &'static str) -> Self {
        Self { what, least, most, taken: Taken::Above }
    }

    pub(crate) const fn below(least: f64, most: f64, what: &'static str) -> Self {
        Self { what, least, most, taken: Taken::Below }
    }

    pub(crate) const fn all(least: f64, most: f64, what: &'static str) -> Self {
        Self { what, least, most, taken: Taken::All }
    }

    /// The least and the most, for a schema.
    pub(crate) const fn ends(&self) -> (f64, f64) {
        (self.least, self.most)
    }

    pub(crate) fn holds(&self, number: f64) -> bool {
        let is_between = (self.least..=self.most).contains(&number);
        is_between
            && match self.taken {
                Taken::Whole => number.fract() == 0.0,
                Taken::Above => number > self.least,
                Taken::Below => number < self.most,
                Taken::All => true,
            }
    }

    /// "a whole number of guests from 1 to 100,000 was expected".
    pub(crate) fn expected(&self) -> String {
        let Self { what, least, most, taken } = self;
        let (least, most) = (short(*least), short(*most));
        match taken {
            Taken::Whole => format!("a whole number of {what} from {least} to {most} was expected"),
            Taken::Above => format!("more than {least} and at most {most} {what} were expected"),
            Taken::Below => format!("{least} or more and less than {most} {what} were expected"),
            Taken::All => format!("{least} to {most} {what} were expected"),
        }
    }

    /// A number on its own, as an option has it.
    pub(crate) fn read(&self, written: &str) -> Result<f64, String> {
        let number = readers::number(written.trim()).map_err(|_| self.expected())?;
        if self.holds(number) { Ok(number) } else { Err(self.expected()) }
    }
}
