//! A bar with a lot book of its own, and the command run in it.

use std::process::{Command, Output};

use chrono::{Local, NaiveDate, TimeDelta};
use serde_json::Value;

use crate::kitchen::Kitchen;

pub struct Bar {
    pub kitchen: Kitchen,
}

impl Bar {
    /// A house with these settings and this larder, its device beside them.
    pub fn new(house: &str, larder: &str) -> Self {
        Self { kitchen: Kitchen::new(larder).with(&[("house.toml", house)]) }
    }

    pub fn with(self, files: &[(&str, &str)]) -> Self {
        Self { kitchen: self.kitchen.with(files) }
    }

    /// The command in this house.
    pub fn command(&self) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_stillroom"));
        command.current_dir(self.kitchen.folder()).env("XDG_CONFIG_HOME", self.kitchen.folder().join("device"));
        command
    }

    pub fn run(&self, arguments: &[&str]) -> Output {
        self.command().args(arguments).output().unwrap()
    }

    pub fn json(&self, arguments: &[&str]) -> Value {
        let arguments: Vec<&str> = arguments.iter().copied().chain(["--json"]).collect();
        let out = self.run(&arguments);
        serde_json::from_slice(&out.stdout).unwrap_or_else(|_| panic!("{arguments:?}: {out:?}"))
    }

    /// Records a card, and gives its lot with all that is said of it.
    pub fn record(&self, arguments: &[&str]) -> (String, Value) {
        let all: Vec<&str> = ["record"].into_iter().chain(arguments.iter().copied()).collect();
        let told = self.json(&all);
        (told["lot"].as_str().unwrap_or_else(|| panic!("{told}")).to_owned(), told)
    }

    pub fn lot(&self, arguments: &[&str]) -> String {
        self.record(arguments).0
    }

    pub fn file(&self, name: &str) -> Vec<u8> {
        std::fs::read(self.kitchen.folder().join(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
    }

    pub fn text(&self, name: &str) -> String {
        String::from_utf8(self.file(name)).unwrap()
    }
}

/// What went to the screen beside the answer.
pub fn said(out: &Output) -> String {
    String::from_utf8_lossy(&out.stderr).into_owned()
}

pub fn today() -> NaiveDate {
    Local::now().date_naive()
}

pub fn ago(days: i64) -> String {
    (today() - TimeDelta::days(days)).to_string()
}
