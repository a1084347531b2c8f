-- Home programs: each version as it was written, what was fixed when it was signed, and the sessions at home.

create sequence program_seq start with 1 increment by 50;
create table program (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  patient_id bigint not null references patient (id),
  location_id bigint not null references location (id),
  therapist_id bigint not null references staff (id),
  state varchar(32) not null,
  latest_number integer not null,
  signed_number integer,
  made_at timestamp(6) with time zone not null,
  first_session_at timestamp(6) with time zone,
  first_session_by bigint references staff (id),
  first_session_words varchar(500),
  stopped_at timestamp(6) with time zone,
  stop_reason varchar(500),
  constraint program_ref unique (ref)
);
create index program_patient on program (patient_id);
create index program_location_state on program (location_id, state);
create index program_therapist on program (therapist_id, state);

create sequence program_version_seq start with 1 increment by 50;
create table program_version (
  id bigint primary key,
  program_id bigint not null references program (id),
  number integer not null,
  state varchar(32) not null,
  template_key varchar(64),
  on_seconds numeric(12,4),
  off_seconds numeric(12,4),
  ramp_up_seconds numeric(12,4),
  ramp_down_seconds numeric(12,4),
  ramp_inside_on boolean,
  drop_last_rest boolean,
  contractions integer,
  minutes numeric(12,4),
  frequency_hz numeric(12,4),
  frequency_kind varchar(32),
  pulse_width_us numeric(12,4),
  intensity varchar(500),
  limit_ma numeric(12,4),
  sessions_per_day integer,
  days_per_week integer,
  weekdays varchar(64),
  weeks integer,
  starts_on date,
  due_kind varchar(48),
  setting_text varchar(500),
  cautions text,
  instructions text,
  drafted_by bigint references staff (id),
  drafted_at timestamp(6) with time zone not null,
  change_reason varchar(500),
  reviewed boolean not null,
  signed_at timestamp(6) with time zone,
  signed_by bigint references staff (id),
  cosigned boolean not null,
  screening_id bigint,
  pad_changes text,
  sessions integer,
  last_session_on date,
  ends_before date,
  due_on date,
  sessions_lost integer,
  next_appointment_on date,
  constraint program_version_once unique (program_id, number)
);
create index program_version_due on program_version (state, due_on);
create index program_version_drafted_by on program_version (drafted_by);
create index program_version_signed_by on program_version (signed_by);

create sequence program_placement_seq start with 1 increment by 50;
create table program_placement (
  id bigint primary key,
  version_id bigint not null references program_version (id),
  place integer not null,
  muscle varchar(64) not null,
  side varchar(16),
  channels integer not null,
  pads_where varchar(500),
  constraint program_placement_once unique (version_id, place)
);

-- A pad line carries the facts of its pad type as they stood, so that the plan stays what was signed.
create sequence program_pad_line_seq start with 1 increment by 50;
create table program_pad_line (
  id bigint primary key,
  version_id bigint not null references program_version (id),
  place integer not null,
  pad_code varchar(32) not null,
  per_session integer not null,
  pads_per_pack integer,
  uses_per_set integer,
  open_days integer,
  constraint program_pad_line_once unique (version_id, pad_code)
);
create index program_pad_line_code on program_pad_line (pad_code);

-- Packs of a signed version: without a day they leave with the unit, else they are owed on that day.
create sequence program_pack_seq start with 1 increment by 50;
create table program_pack (
  id bigint primary key,
  version_id bigint not null references program_version (id),
  pad_code varchar(32) not null,
  on_day date,
  packs integer not null,
  constraint program_pack_some check (packs > 0)
);
create index program_pack_version on program_pack (version_id);
create index program_pack_day on program_pack (on_day);

create sequence program_pause_seq start with 1 increment by 50;
create table program_pause (
  id bigint primary key,
  program_id bigint not null references program (id),
  from_day date not null,
  to_day date not null,
  reason varchar(500) not null,
  entered_at timestamp(6) with time zone not null,
  constraint program_pause_order check (from_day <= to_day)
);
create index program_pause_program on program_pause (program_id);

create sequence program_setting_seq start with 1 increment by 50;
create table program_setting (
  id bigint primary key,
  program_id bigint not null references program (id),
  version_number integer not null,
  unit_id bigint not null,
  unit_tag varchar(32) not null,
  setting_text varchar(500) not null,
  confirmed_at timestamp(6) with time zone not null,
  confirmed_by bigint
);
create index program_setting_program on program_setting (program_id, version_number);
create index program_setting_unit on program_setting (unit_id);

-- Of the sessions of one day each number stands once; one that was wrong is voided and loses its number.
create sequence session_log_seq start with 1 increment by 50;
create table session_log (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  program_id bigint not null references program (id),
  on_day date not null,
  nth integer not null,
  standing_nth integer,
  outcome varchar(16) not null,
  source varchar(16) not null,
  contractions integer,
  intensity varchar(120),
  pads_words varchar(300),
  skin_words varchar(300),
  skin_trouble boolean not null,
  pads_trouble boolean not null,
  note varchar(500),
  happened_at timestamp(6) with time zone not null,
  recorded_at timestamp(6) with time zone not null,
  late_reason varchar(500),
  staff_id bigint references staff (id),
  voided_at timestamp(6) with time zone,
  void_reason varchar(500),
  constraint session_log_ref unique (ref),
  constraint session_log_once unique (program_id, on_day, standing_nth)
);
create index session_log_program_day on session_log (program_id, on_day);
create index session_log_trouble on session_log (happened_at, skin_trouble, pads_trouble);
