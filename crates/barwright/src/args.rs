//! What can be typed after the program's name, and what was meant by it.
//!
//! All texts come from the words: nothing that the parser itself would say is shown.

use crate::stock::What;
use crate::usage;
use crate::window::EVERY_S;
use clap::{Arg, ArgAction, ArgMatches, Command, value_parser};
use fit_doc::{Date, IfKnown, nearest};
use fit_folder::export::Form;
use fit_math::HandPlace;
use fit_view::choose::IDEAS;
use fit_view::file_name::FOLDER;
use fit_view::weigh::place_id;
use fit_view::words::{Help, UsageError, Words};
use std::ffi::OsString;
use std::path::{Path, PathBuf};

/// The option that names the file of a passphrase.
const PASSPHRASE_FILE: &str = "passphrase-file";

/// The program's name in every usage.
pub(crate) const PROGRAM: &str = "barwright";

/// The most ideas that are told: nobody tries more in one visit.
const MOST_BEST: usize = 50;

/// Seconds between which what is not saved may be kept: less than the least would keep a disk busy, more
/// than the most would keep little (judgement).
const LEAST_EVERY_S: f64 = 0.05;
const MOST_EVERY_S: f64 = 600.0;

/// What was asked for.
#[derive(Debug)]
pub(crate) enum Asked {
    Draw(Draw),
    Weigh {
        file: PathBuf,
        visit: Option<Date>,
        json: bool,
        detail: bool,
    },
    Paper {
        file: PathBuf,
        visit: Option<Date>,
        folder: PathBuf,
    },
    Choose {
        file: PathBuf,
        visit: Option<Date>,
        best: usize,
        json: bool,
    },
    Check {
        files: Vec<PathBuf>,
        accept: bool,
    },
    Stock(What),
    Find {
        folder: PathBuf,
        looked_for: Vec<String>,
        past: bool,
        json: bool,
    },
    Export {
        folder: PathBuf,
        table: PathBuf,
        replace: bool,
    },
    /// What the columns of an export are.
    Columns,
    Erase {
        file: PathBuf,
        yes: bool,
    },
    /// A text that needs nothing but to be printed: help, the version.
    Text(String),
}

/// A command, and what sessions under a passphrase are opened by.
#[derive(Debug)]
pub(crate) struct Line {
    pub(crate) asked: Asked,
    /// The file whose first line is the passphrase.
    pub(crate) passphrase_file: Option<PathBuf>,
}

/// What is to be drawn.
#[derive(Debug)]
pub(crate) struct Draw {
    /// The session; none: the demo client's.
    pub(crate) file: Option<PathBuf>,
    pub(crate) visit: Option<Date>,
    pub(crate) place: Option<HandPlace>,
    /// Label or number of the cockpit that the rider is drawn on.
    pub(crate) on: Option<String>,
    /// Where drawings go; none: the usual folder.
    pub(crate) folder: Option<PathBuf>,
    /// In a window, seconds until what is not saved is kept for the case that the program ends.
    pub(crate) keep_every_s: f64,
}

impl Draw {
    /// Where drawings go.
    pub(crate) fn folder(&self) -> &Path {
        self.folder.as_deref().unwrap_or(Path::new(FOLDER))
    }

    /// Drawings were asked for in particular: this is for paper, not for a window.
    pub(crate) fn on_paper(&self) -> bool {
        self.visit.is_some() || self.place.is_some() || self.on.is_some() || self.folder.is_some()
    }
}

/// What was asked for by these arguments, the program's own name first, or why that cannot be told
/// and how it is typed. Helps are as wide as the screen, where its `columns` are known.
pub(crate) fn parse(
    args: impl IntoIterator<Item = OsString>,
    columns: Option<usize>,
    words: &dyn Words,
) -> Result<Line, String> {
    let args: Vec<OsString> = args.into_iter().collect();
    if let Some(near) = near_command(&args) {
        return Err(usage::explained(&near, &args, words));
    }
    let mut command = program(words).term_width(columns.unwrap_or(fit_view::table::WIDTH));
    let matches = match command.try_get_matches_from_mut(&args) {
        Ok(matches) => matches,
        Err(shown) if !shown.use_stderr() => {
            let asked = Asked::Text(shown.to_string());
            return Ok(Line { asked, passphrase_file: None });
        }
        Err(error) => {
            let why = blanks(second_place(usage::why(&error), &args), &args);
            return Err(usage::explained(&why, &args, words));
        }
    };
    let passphrase_file = passphrase_file(&matches);
    asked(&matches, &mut command, words)
        .and_then(|asked| no_file(asked, &args))
        .map(|asked| Line { asked, passphrase_file })
        .map_err(|why| usage::explained(&why, &args, words))
}

/// Where a passphrase is written, behind the commands that open sessions.
fn passphrase_file(matches: &ArgMatches) -> Option<PathBuf> {
    let of = matches.subcommand().map_or(matches, |(_, of)| of);
    of.try_get_one::<PathBuf>(PASSPHRASE_FILE).ok().flatten().cloned()
}

fn asked(
    matches: &ArgMatches,
    command: &mut Command,
    words: &dyn Words,
) -> Result<Asked, UsageError> {
    match matches.subcommand() {
        Some(("weigh", of)) => Ok(Asked::Weigh {
            file: path(of, "file").ok_or(UsageError::Other)?,
            visit: visit(of)?,
            json: of.get_flag("json"),
            detail: of.get_flag("detail"),
        }),
        Some(("paper", of)) => Ok(Asked::Paper {
            file: path(of, "file").ok_or(UsageError::Other)?,
            visit: visit(of)?,
            folder: path(of, "out").unwrap_or_else(|| PathBuf::from(FOLDER)),
        }),
        Some(("choose", of)) => Ok(Asked::Choose {
            file: path(of, "file").ok_or(UsageError::Other)?,
            visit: visit(of)?,
            best: best(of)?,
            json: of.get_flag("json"),
        }),
        Some(("check", of)) => Ok(Asked::Check {
            files: of.get_many("files").into_iter().flatten().cloned().collect(),
            accept: of.get_flag("accept"),
        }),
        Some(("stock", of)) => stock(of, words).map(Asked::Stock),
        Some(("find", of)) => Ok(Asked::Find {
            folder: path(of, "folder").ok_or(UsageError::Other)?,
            looked_for: of.get_many("words").into_iter().flatten().cloned().collect(),
            past: of.get_flag("past"),
            json: of.get_flag("json"),
        }),
        Some(("export", of)) => export(of),
        Some(("erase", of)) => Ok(Asked::Erase {
            file: path(of, "file").ok_or(UsageError::Other)?,
            yes: of.get_flag("yes"),
        }),
        Some(("help", of)) => {
            let about = match of.get_one::<String>("command") {
                None => command,
                Some(name) => command
                    .find_subcommand_mut(name)
                    .ok_or_else(|| UsageError::Unknown { found: name.clone() })?,
            };
            Ok(Asked::Text(about.render_help().to_string()))
        }
        _ => Ok(Asked::Draw(Draw {
            file: file_to_draw(matches)?,
            visit: visit(matches)?,
            place: place(matches)?,
            on: matches.get_one::<String>("on").cloned(),
            folder: path(matches, "out"),
            keep_every_s: keep_every(matches)?,
        })),
    }
}

/// What is done with the stock.
fn stock(of: &ArgMatches, words: &dyn Words) -> Result<What, UsageError> {
    let what = of.get_one::<String>("what").map_or("", String::as_str);
    let place = |value: Help| {
        let what = words.help(value).to_owned();
        path(of, "path").ok_or(UsageError::Missing { what })
    };
    let asked = match what {
        "in" => {
            let if_known = match (of.get_flag("replace"), of.get_flag("keep")) {
                (true, _) => IfKnown::Replace,
                (_, true) => IfKnown::Keep,
                _ => IfKnown::Ask,
            };
            return Ok(What::In { file: place(Help::FileValue)?, if_known });
        }
        "out" => What::Out { folder: place(Help::FolderValue)? },
        "columns" => match path(of, "path") {
            None => What::Columns,
            Some(path) => return Err(UsageError::Unknown { found: path.display().to_string() }),
        },
        other => return Err(UsageError::Unknown { found: other.to_owned() }),
    };
    // what is known is asked about on the way in only
    match ["replace", "keep"].into_iter().find(|flag| of.get_flag(flag)) {
        None => Ok(asked),
        Some(flag) => Err(UsageError::Conflict { found: format!("--{flag}") }),
    }
}

fn export(of: &ArgMatches) -> Result<Asked, UsageError> {
    if of.get_flag("columns") {
        return Ok(Asked::Columns);
    }
    let folder = path(of, "folder").ok_or(UsageError::Other)?;
    let table = path(of, "out").ok_or(UsageError::Other)?;
    match Form::of(&table) {
        Some(_) => Ok(Asked::Export { folder, table, replace: of.get_flag("replace") }),
        None => Err(UsageError::NotATable { found: table.display().to_string() }),
    }
}

/// What is wrong where a command is misspelt: it would be taken for a file.
fn near_command(args: &[OsString]) -> Option<UsageError> {
    let typed = args.get(1)?.to_str()?;
    let is_known = COMMANDS.contains(&typed) || typed.starts_with('-');
    if is_known || Path::new(typed).exists() {
        return None;
    }
    let name = nearest(typed, COMMANDS)?;
    let near = COMMANDS.into_iter().find(|command| *command == name)?;
    Some(UsageError::NearCommand { found: typed.to_owned(), near })
}

/// The hand place that is called so.
fn place_called(text: &str) -> Option<HandPlace> {
    let same = |place: &HandPlace| place_id(*place).eq_ignore_ascii_case(text.trim());
    HandPlace::ALL.into_iter().find(same)
}

/// What is wrong, told closer where it is a second hand place.
fn second_place(why: UsageError, args: &[OsString]) -> UsageError {
    let asks = args.iter().any(|arg| arg.to_string_lossy().starts_with("--place"));
    match why {
        UsageError::Unknown { found } | UsageError::Conflict { found }
            if asks && place_called(&found).is_some() =>
        {
            UsageError::SecondPlace { found }
        }
        why => why,
    }
}

/// What is wrong, told closer where it is the rest of a name with blanks.
fn blanks(why: UsageError, args: &[OsString]) -> UsageError {
    match &why {
        UsageError::Unknown { found } | UsageError::Conflict { found } => {
            with_blanks(found, args).unwrap_or(why)
        }
        _ => why,
    }
}

/// The rest of a name with blanks stands where a session would: there is no such file, and sessions have
/// an ending.
fn no_file(asked: Asked, args: &[OsString]) -> Result<Asked, UsageError> {
    let Asked::Draw(Draw { file: Some(file), .. }) = &asked else { return Ok(asked) };
    let no_session = file.extension().is_none() && !file.exists();
    let rest = file.to_str().filter(|_| no_session).and_then(|found| with_blanks(found, args));
    rest.map_or(Ok(asked), Err)
}

/// Whether a word is the rest of a name that stands behind an option.
fn with_blanks(found: &str, args: &[OsString]) -> Option<UsageError> {
    let args: Vec<&str> = args.iter().filter_map(|arg| arg.to_str()).collect();
    let at = args.iter().rposition(|arg| *arg == found)?;
    let from = args[..at].iter().rposition(|arg| arg.starts_with('-'))?;
    let option = ["--on", "--out"].into_iter().find(|option| *option == args[from])?;
    let words = args[from + 1..].iter().copied().take_while(|arg| !arg.starts_with('-'));
    let words: Vec<&str> = words.collect();
    // a command may stand behind an option, too
    let is_rest = at > from + 1 && !words.iter().any(|word| COMMANDS.contains(word));
    is_rest.then(|| UsageError::Blanks { option, name: words.join(" ") })
}

/// The session to draw; a second hand place stands where it would.
fn file_to_draw(of: &ArgMatches) -> Result<Option<PathBuf>, UsageError> {
    let file = path(of, "file");
    let asks = of.get_one::<String>("place").is_some();
    match file.as_deref().and_then(Path::to_str) {
        Some(name) if asks && place_called(name).is_some() && !Path::new(name).exists() => {
            Err(UsageError::SecondPlace { found: name.to_owned() })
        }
        _ => Ok(file),
    }
}

fn path(of: &ArgMatches, id: &str) -> Option<PathBuf> {
    of.get_one::<PathBuf>(id).cloned()
}

fn visit(of: &ArgMatches) -> Result<Option<Date>, UsageError> {
    let day =
        |text: &String| text.parse().map_err(|_| UsageError::NotADate { found: text.clone() });
    of.get_one::<String>("visit").map(day).transpose()
}

/// How many answers are asked for.
fn best(of: &ArgMatches) -> Result<usize, UsageError> {
    let Some(text) = of.get_one::<String>("best") else { return Ok(IDEAS) };
    let number = text.trim().parse().ok().filter(|best| (1..=MOST_BEST).contains(best));
    number.ok_or_else(|| UsageError::NotACount { found: text.clone(), most: MOST_BEST })
}

fn keep_every(of: &ArgMatches) -> Result<f64, UsageError> {
    let Some(text) = of.get_one::<String>("keep-every") else { return Ok(EVERY_S) };
    let number =
        text.trim().parse().ok().filter(|every| (LEAST_EVERY_S..=MOST_EVERY_S).contains(every));
    number.ok_or_else(|| UsageError::NotSeconds {
        found: text.clone(),
        least: LEAST_EVERY_S,
        most: MOST_EVERY_S,
    })
}

fn place(of: &ArgMatches) -> Result<Option<HandPlace>, UsageError> {
    let named = |text: &String| {
        place_called(text).ok_or_else(|| UsageError::NotAPlace {
            found: text.clone(),
            places: HandPlace::ALL.map(place_id).into(),
        })
    };
    of.get_one::<String>("place").map(named).transpose()
}

/// How each command is typed.
pub(crate) fn usage_of(command: Option<&str>, words: &dyn Words) -> String {
    let [file, date, place, cockpit, folder, command_value, count, word] = [
        Help::FileValue,
        Help::DateValue,
        Help::PlaceValue,
        Help::CockpitValue,
        Help::FolderValue,
        Help::CommandValue,
        Help::CountValue,
        Help::WordValue,
    ]
    .map(|value| words.help(value));
    match command {
        Some("weigh") => format!("{PROGRAM} weigh {file} [--visit {date}] [--detail | --json]"),
        Some("choose") => {
            format!("{PROGRAM} choose {file} [--visit {date}] [--best {count}] [--json]")
        }
        Some("paper") => format!("{PROGRAM} paper {file} [--visit {date}] [--out {folder}]"),
        Some("check") => format!("{PROGRAM} check {file}… [--accept]"),
        Some("stock") => below_each_other(
            &[
                format!("{PROGRAM} stock in {file} [--replace | --keep]"),
                format!("{PROGRAM} stock out {folder}"),
                format!("{PROGRAM} stock columns"),
            ],
            words,
        ),
        Some("find") => format!("{PROGRAM} find {folder} [{word}…] [--past] [--json]"),
        Some("export") => {
            format!("{PROGRAM} export {folder} --out {file} [--replace] | --columns")
        }
        Some("erase") => format!("{PROGRAM} erase {file} --yes"),
        Some("help") => format!("{PROGRAM} help [{command_value}]"),
        _ => format!(
            "{PROGRAM} [{file}] [--visit {date}] [--place {place}] [--on {cockpit}] [--out {folder}]"
        ),
    }
}

/// Usages one under the other, behind their heading.
fn below_each_other(usages: &[String], words: &dyn Words) -> String {
    let heading = words.help(Help::UsageHeading).chars().count();
    usages.join(&format!("\n{}", " ".repeat(heading + 1)))
}

/// Names of the commands.
pub(crate) const COMMANDS: [&str; 9] =
    ["weigh", "choose", "paper", "check", "stock", "find", "export", "erase", "help"];

fn program(words: &dyn Words) -> Command {
    let commands = [
        (
            Help::Weigh,
            vec![
                file(words, Help::File).required(true),
                visit_option(words),
                detail(words),
                json(words),
                passphrase_option(words),
            ],
        ),
        (
            Help::Choose,
            vec![
                file(words, Help::File).required(true),
                visit_option(words),
                option(words, "best", Help::CountValue, Help::Best),
                switch(words, "json", Help::Json),
                passphrase_option(words),
            ],
        ),
        (
            Help::Paper,
            vec![
                file(words, Help::File).required(true),
                visit_option(words),
                out_option(words),
                passphrase_option(words),
            ],
        ),
        (
            Help::Check,
            vec![files(words), switch(words, "accept", Help::Accept), passphrase_option(words)],
        ),
        (
            Help::Stock,
            vec![
                argument(words, "what", Help::WhatValue, Help::StockWhat).required(true),
                argument(words, "path", Help::FileValue, Help::StockWhere)
                    .value_parser(value_parser!(PathBuf)),
                switch(words, "replace", Help::StockReplace),
                switch(words, "keep", Help::StockKeep).conflicts_with("replace"),
            ],
        ),
        (
            Help::Find,
            vec![
                folder(words).required(true),
                argument(words, "words", Help::WordValue, Help::FindWords).num_args(0..),
                switch(words, "past", Help::Past),
                switch(words, "json", Help::Json),
            ],
        ),
        (
            Help::Export,
            vec![
                folder(words).required_unless_present("columns"),
                option(words, "out", Help::FileValue, Help::ExportOut)
                    .value_parser(value_parser!(PathBuf))
                    .required_unless_present("columns"),
                switch(words, "replace", Help::ExportReplace).conflicts_with("columns"),
                switch(words, "columns", Help::Columns),
            ],
        ),
        (
            Help::Erase,
            vec![file(words, Help::File).required(true), switch(words, "yes", Help::Yes)],
        ),
        (Help::Help, vec![command_named(words)]),
    ];
    let commands = COMMANDS.into_iter().zip(commands);
    // a line for the drawing, and one for each command
    let usages = core::iter::once(None).chain(COMMANDS.map(Some));
    let usages: Vec<_> = usages.map(|command| usage_of(command, words)).collect();
    let options = [
        file(words, Help::FileToDraw),
        visit_option(words),
        option(words, "place", Help::PlaceValue, Help::Place),
        option(words, "on", Help::CockpitValue, Help::On),
        out_option(words),
        option(words, "keep-every", Help::SecondsValue, Help::KeepEvery),
        passphrase_option(words),
    ];
    outfitted(Command::new(PROGRAM), words, Help::About)
        .override_usage(below_each_other(&usages, words))
        .args(options)
        .args(help_and_version(words))
        .args_conflicts_with_subcommands(true)
        .disable_help_subcommand(true)
        .subcommand_help_heading(words.help(Help::CommandsHeading))
        .subcommands(commands.map(|(name, (about, args))| {
            outfitted(Command::new(name), words, about)
                .override_usage(usage_of(Some(name), words))
                .args(args)
                .args(help_and_version(words))
        }))
}

/// What every command has.
fn outfitted(command: Command, words: &dyn Words, about: Help) -> Command {
    command
        .display_name(PROGRAM)
        .version(env!("CARGO_PKG_VERSION"))
        .about(words.help(about))
        .disable_help_flag(true)
        .disable_version_flag(true)
        .help_template(format!(
            "{{about}}\n\n{} {{usage}}\n\n{{all-args}}",
            words.help(Help::UsageHeading)
        ))
}

fn help_and_version(words: &dyn Words) -> [Arg; 2] {
    let flag = |id, short, action, help| {
        let arg = Arg::new(id).long(id).short(short).action(action).help(words.help(help));
        arg.help_heading(words.help(Help::OptionsHeading))
    };
    [
        flag("help", 'h', ArgAction::Help, Help::ShowHelp),
        flag("version", 'V', ArgAction::Version, Help::ShowVersion),
    ]
}

fn argument(words: &dyn Words, id: &'static str, value: Help, help: Help) -> Arg {
    Arg::new(id)
        .value_name(words.help(value))
        .help(words.help(help))
        .help_heading(words.help(Help::ArgumentsHeading))
}

fn option(words: &dyn Words, id: &'static str, value: Help, help: Help) -> Arg {
    argument(words, id, value, help).long(id).help_heading(words.help(Help::OptionsHeading))
}

fn file(words: &dyn Words, help: Help) -> Arg {
    argument(words, "file", Help::FileValue, help).value_parser(value_parser!(PathBuf))
}

fn folder(words: &dyn Words) -> Arg {
    argument(words, "folder", Help::FolderValue, Help::FolderOfSessions)
        .value_parser(value_parser!(PathBuf))
}

fn files(words: &dyn Words) -> Arg {
    argument(words, "files", Help::FileValue, Help::Files)
        .value_parser(value_parser!(PathBuf))
        .num_args(1..)
        .required(true)
}

fn command_named(words: &dyn Words) -> Arg {
    argument(words, "command", Help::CommandValue, Help::HelpAbout)
}

fn visit_option(words: &dyn Words) -> Arg {
    option(words, "visit", Help::DateValue, Help::Visit)
}

fn out_option(words: &dyn Words) -> Arg {
    option(words, "out", Help::FolderValue, Help::Out).value_parser(value_parser!(PathBuf))
}

fn passphrase_option(words: &dyn Words) -> Arg {
    option(words, PASSPHRASE_FILE, Help::FileValue, Help::PassphraseFile)
        .value_parser(value_parser!(PathBuf))
}

fn detail(words: &dyn Words) -> Arg {
    switch(words, "detail", Help::Detail)
}

fn json(words: &dyn Words) -> Arg {
    switch(words, "json", Help::Json).conflicts_with("detail")
}

fn switch(words: &dyn Words, id: &'static str, help: Help) -> Arg {
    Arg::new(id)
        .long(id)
        .action(ArgAction::SetTrue)
        .help(words.help(help))
        .help_heading(words.help(Help::OptionsHeading))
}
