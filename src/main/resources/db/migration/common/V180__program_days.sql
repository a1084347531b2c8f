-- What is still to come is asked every day; what is over must not be read for it.
create index program_version_last_session on program_version (last_session_on);
create index program_version_starts on program_version (starts_on);
