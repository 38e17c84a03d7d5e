//! How messages call keys and tables.

use super::schema::Table;

/// How messages call a path: `shape.length`, but `legs` of cut 2.
pub(super) fn called(path: &str) -> String {
    if let Some(of_thing) = called_in_list(path) {
        return of_thing;
    }
    let Some(of_cut) = path.strip_prefix("shape.cut.") else {
        return format!("`{path}`");
    };
    let parts: Vec<&str> = of_cut.split('.').collect();
    match parts.as_slice() {
        [number] => format!("cut {number}"),
        [number, key] => format!("`{key}` of cut {number}"),
        [number, "legs", place] => format!("leg {place} of cut {number}"),
        [number, "through", "1"] => format!("x in `through` of cut {number}"),
        [number, "through", "2"] => format!("y in `through` of cut {number}"),
        [number, "through", "3"] => format!("z in `through` of cut {number}"),
        _ => format!("`{path}`"),
    }
}

/// How messages call what stands in a list: `bore` of fitting 2.
fn called_in_list(path: &str) -> Option<String> {
    let parts: Vec<&str> = path.split('.').collect();
    Some(match parts.as_slice() {
        ["shape", "outline", number] => format!("point {number} of the outline"),
        ["joints", "folds", number] => format!("fold {number}"),
        ["joints", "edges", number] => format!("joint {number} of [joints.edges]"),
        ["arc", thing @ ("power_source" | "torch"), number] if number.parse::<u8>().is_ok() => {
            format!("rating {number} of the {}", thing.replace('_', " "))
        }
        ["arc", thing @ ("power_source" | "torch"), number, key]
            if number.parse::<u8>().is_ok() =>
        {
            format!(
                "`{key}` of rating {number} of the {}",
                thing.replace('_', " ")
            )
        }
        [thing @ ("fitting" | "baffle"), number] => format!("{thing} {number}"),
        ["baffle", number, "hole", hole] => format!("hole {hole} of baffle {number}"),
        ["baffle", number, "notch", notch] => format!("notch {notch} of baffle {number}"),
        ["baffle", number, "notch", notch, key, ..] => {
            format!("`{key}` of notch {notch} of baffle {number}")
        }
        ["baffle", number, "hole", hole, key, ..] => {
            format!("`{key}` of hole {hole} of baffle {number}")
        }
        [thing @ ("fitting" | "baffle"), number, key, ..] if number.parse::<u8>().is_ok() => {
            format!("`{key}` of {thing} {number}")
        }
        _ => return None,
    })
}

/// How messages call a table.
pub(super) fn title(table: &Table) -> String {
    match table.path {
        "" => "the top of the file".to_owned(),
        path @ ("shape.cut" | "fitting" | "baffle" | "baffle.hole" | "baffle.notch"
        | "use.mount" | "arc.power_source" | "arc.torch") => format!("[[{path}]]"),
        path => format!("[{path}]"),
    }
}
