-- Requests that wait for a unit, loans, what changes in them, what goes along and what is owed.

create sequence loan_request_seq start with 1 increment by 50;
create table loan_request (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  program_id bigint not null references program (id),
  patient_id bigint not null references patient (id),
  location_id bigint not null references location (id),
  channels integer not null,
  needed_from date not null,
  priority integer not null,
  waiting_since timestamp(6) with time zone not null,
  state varchar(32) not null,
  unit_id bigint references unit (id),
  agreement_version varchar(40),
  end_reason varchar(300),
  -- One open request a program: null once it is filled or withdrawn.
  open_program_id bigint,
  constraint loan_request_ref unique (ref),
  constraint loan_request_open unique (open_program_id)
);
create index loan_request_state on loan_request (location_id, state);
create index loan_request_program on loan_request (program_id);
create index loan_request_patient on loan_request (patient_id);
create index loan_request_unit on loan_request (unit_id);

create sequence loan_seq start with 1 increment by 50;
create table loan (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  unit_id bigint not null references unit (id),
  patient_id bigint not null references patient (id),
  program_id bigint not null references program (id),
  program_version integer not null,
  location_id bigint not null references location (id),
  state varchar(32) not null,
  checked_out_at timestamp(6) with time zone not null,
  due_on date not null,
  due_kind varchar(40) not null,
  bring_in_on date,
  returned_at timestamp(6) with time zone,
  returned_location_id bigint references location (id),
  identifiers varchar(120),
  agreement_version varchar(40),
  use_counter_out integer,
  use_counter_in integer,
  note varchar(500),
  -- One open loan a program: null once it has ended.
  open_program_id bigint,
  constraint loan_ref unique (ref),
  constraint loan_open unique (open_program_id)
);
create index loan_state_due on loan (location_id, state, due_on);
create index loan_unit on loan (unit_id);
create index loan_patient on loan (patient_id);
create index loan_program on loan (program_id);
create index loan_returned_location on loan (returned_location_id);

create sequence loan_change_seq start with 1 increment by 50;
create table loan_change (
  id bigint primary key,
  loan_id bigint not null references loan (id),
  kind varchar(32) not null,
  happened_at timestamp(6) with time zone not null,
  recorded_at timestamp(6) with time zone not null,
  by_name varchar(200) not null,
  from_unit_id bigint references unit (id),
  to_unit_id bigint references unit (id),
  from_due date,
  to_due date,
  reason varchar(500)
);
create index loan_change_loan on loan_change (loan_id);

-- The parts of the kit as they went out, and how each came back.
create sequence loan_part_seq start with 1 increment by 50;
create table loan_part (
  id bigint primary key,
  loan_id bigint not null references loan (id),
  kit_item_id bigint,
  words varchar(120) not null,
  essential boolean not null,
  went_along boolean not null,
  came_back varchar(32)
);
create index loan_part_loan on loan_part (loan_id);

-- What one side still owes the other: the clinic packs or parts, the patient parts.
create sequence loan_owed_seq start with 1 increment by 50;
create table loan_owed (
  id bigint primary key,
  loan_id bigint not null references loan (id),
  owed_by varchar(16) not null,
  what varchar(32) not null,
  words varchar(200) not null,
  pad_code varchar(32),
  packs integer,
  kit_item_id bigint,
  due_on date,
  reason varchar(300),
  settled_at timestamp(6) with time zone,
  settled_how varchar(200)
);
create index loan_owed_loan on loan_owed (loan_id);
create index loan_owed_open on loan_owed (settled_at, pad_code);
