//! What is built beside the program: `cargo run -p xtask -- page` builds the solver of the bench page into `target/page`, where
//! the feature `solver-page` takes it from.
//!
//! It asks for the target wasm32-unknown-unknown, which it adds where rustup is, and for npm, by which the optimiser of
//! WebAssembly comes (binaryen); without npm the solver is larger and slower, and that is said. `page quick` builds the same
//! solver in half the time and leaves it large, to be tested and not to be sent.

use std::error::Error;
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};

type Done<T> = Result<T, Box<dyn Error>>;

const TARGET: &str = "wasm32-unknown-unknown";

/// The optimiser, by the version that was looked at.
const BINARYEN: &str = "binaryen@132.0.0";

/// What rustc takes for granted that a browser can, and has to be told to the optimiser.
const CAN: &[&str] = &[
    "--enable-bulk-memory",
    "--enable-sign-ext",
    "--enable-nontrapping-float-to-int",
    "--enable-mutable-globals",
    "--enable-multivalue",
    "--enable-reference-types",
];

/// The modules of the page, each after those that it names: in one script they need no loading.
const MODULES: &[&str] = &["words", "kept", "solver", "bench", "tools", "main"];

fn main() -> ExitCode {
    let asked: Vec<String> = std::env::args().skip(1).collect();
    let done = match asked.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["page"] => page(Solver::Small),
        ["page", "quick"] => page(Solver::Quick),
        _ => Err("write: cargo run -p xtask -- page".into()),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("error: {why}");
            ExitCode::FAILURE
        }
    }
}

/// What the solver is built for: to be sent and kept, or to be tested.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Solver {
    Small,
    Quick,
}

impl Solver {
    /// The profile in Cargo.toml, by whose name cargo names the folder too.
    fn profile(self) -> &'static str {
        match self {
            Self::Small => "page",
            Self::Quick => "page-quick",
        }
    }
}

fn page(solver: Solver) -> Done<()> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).parent().ok_or("no folder above")?;
    let out = root.join("target/page");
    fs::create_dir_all(&out)?;
    fs::write(out.join("page.js"), script(&root.join("page/script"))?)?;
    fs::copy(root.join("page/script/keeper.js"), out.join("keeper.js"))?;
    let built = out.join("build").join(TARGET).join(solver.profile()).join("stillroom_page.wasm");
    wasm(root, &out, solver)?;
    let (sent, packing) = match solver {
        Solver::Small => (optimised(&out, &built)?, flate2::Compression::best()),
        Solver::Quick => (built, flate2::Compression::fast()),
    };
    let wasm = fs::read(&sent)?;
    let mut packed = flate2::GzBuilder::new().write(Vec::new(), packing);
    packed.write_all(&wasm)?;
    let packed = packed.finish()?;
    fs::write(out.join("solver.wasm.gz"), &packed)?;
    println!("the solver of the page: {} kB, packed {} kB", wasm.len() / 1000, packed.len() / 1000);
    Ok(())
}

fn run(command: &mut Command) -> Done<()> {
    let status = command.status().map_err(|why| format!("{:?}: {why}", command.get_program()))?;
    if status.success() { Ok(()) } else { Err(format!("{command:?} failed").into()) }
}

/// The library for a browser, in a folder of its own: another build may be running beside.
fn wasm(root: &Path, out: &Path, solver: Solver) -> Done<()> {
    if let Ok(there) = Command::new("rustup").args(["target", "list", "--installed"]).output()
        && !String::from_utf8_lossy(&there.stdout).lines().any(|target| target == TARGET)
    {
        run(Command::new("rustup").args(["target", "add", TARGET]))?;
    }
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let profile = solver.profile();
    let build = ["build", "--locked", "-p", "stillroom-page", "--profile", profile, "--target", TARGET, "--target-dir"];
    run(Command::new(cargo).current_dir(root).args(build).arg(out.join("build")))
}

/// Smaller and faster, where the optimiser can be had. Its first step alone: what the further ones gain is lost again in
/// packing (1,065 kB packed against 1,131 kB at -Os, measured), and they take a minute.
fn optimised(out: &Path, built: &Path) -> Done<PathBuf> {
    let tools = out.join("npm");
    let tool = tools.join("node_modules/binaryen/bin/wasm-opt");
    if !tool.exists() {
        fs::create_dir_all(&tools)?;
        let install = ["install", "--no-save", "--no-audit", "--no-fund", "--prefix"];
        if let Err(why) = run(Command::new("npm").args(install).arg(&tools).arg(BINARYEN)) {
            println!("NOT OPTIMISED: {why}");
            return Ok(built.to_owned());
        }
    }
    let small = out.join("solver.wasm");
    run(Command::new("node").arg(&tool).arg("-O1").args(CAN).arg(built).arg("-o").arg(&small))?;
    Ok(small)
}

/// The modules as one script: a page from a memory stick may load none.
fn script(folder: &Path) -> Done<String> {
    let mut all = String::from("(() => {\n\"use strict\";\n");
    for name in MODULES {
        let text = fs::read_to_string(folder.join(format!("{name}.js")))?;
        for line in text.lines().filter(|line| !line.starts_with("import ")) {
            all.push_str(line.strip_prefix("export ").unwrap_or(line));
            all.push('\n');
        }
    }
    Ok(all + "})();\n")
}
