-- A program that nobody may go on with until the patient was screened again.
create sequence program_hold_seq start with 1 increment by 50;
create table program_hold (
  id bigint primary key,
  program_id bigint not null references program (id),
  standing_program_id bigint,
  reason varchar(32) not null,
  words varchar(500),
  held_at timestamp(6) with time zone not null,
  recorded_at timestamp(6) with time zone not null,
  held_by bigint,
  released_at timestamp(6) with time zone,
  released_by bigint,
  screening_id bigint references screening (id),
  release_words varchar(500),
  constraint program_hold_standing unique (standing_program_id)
);
create index program_hold_program on program_hold (program_id);
