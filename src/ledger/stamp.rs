//! Who and when, as the machine knows it.

/// When something was recorded, where and under which account.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stamp {
    /// Local time with its zone (RFC 3339, seconds).
    pub time: String,
    /// Name of the machine; "unknown" where it does not say.
    pub host: String,
    /// Account on the machine; "unknown" where it does not say.
    pub user: String,
}

impl Stamp {
    /// Now, on this machine.
    pub fn now() -> Stamp {
        let time = chrono::Local::now();
        Stamp {
            time: time.to_rfc3339_opts(chrono::SecondsFormat::Secs, false),
            host: host().unwrap_or_else(unknown),
            user: first_set(&["USER", "LOGNAME", "USERNAME"]).unwrap_or_else(unknown),
        }
    }
}

fn unknown() -> String {
    "unknown".to_string()
}

fn host() -> Option<String> {
    let of_file = |path: &str| {
        let name = std::fs::read_to_string(path).ok()?;
        Some(name.trim().to_string()).filter(|name| !name.is_empty())
    };
    of_file("/proc/sys/kernel/hostname")
        .or_else(|| of_file("/etc/hostname"))
        .or_else(|| first_set(&["HOSTNAME", "COMPUTERNAME"]))
}

fn first_set(names: &[&str]) -> Option<String> {
    let mut values = names.iter().filter_map(|name| std::env::var(name).ok());
    values.find(|value| !value.is_empty())
}
