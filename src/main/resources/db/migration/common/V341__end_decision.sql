-- What the therapist decided about the end of a program, by version: an extension is a new version with an end of its own.
create sequence end_decision_seq start with 1 increment by 50;
create table end_decision (
  id bigint primary key,
  program_id bigint not null references program (id),
  version_number integer not null,
  choice varchar(32) not null,
  words varchar(500),
  decided_at timestamp(6) with time zone not null,
  recorded_at timestamp(6) with time zone not null,
  decided_by bigint
);
create index end_decision_program on end_decision (program_id, version_number);
