-- A unit that the day's plan chose may be changed by the plan; one named by hand stays.
alter table appointment add column unit_planned boolean default false not null;
-- The patient came without the unit that is on loan to them.
alter table appointment add column loaned_forgotten boolean default false not null;
create index appointment_units_needed on appointment (location_id, state, starts_at);

-- What a failed unit or a therapist who was called out changed in a day.
create sequence day_upset_seq start with 1 increment by 50;
create table day_upset (
  id bigint primary key,
  location_id bigint not null references location (id),
  on_day date not null,
  cause varchar(32) not null,
  words varchar(500) not null,
  entered_at timestamp(6) with time zone not null,
  entered_by bigint references staff (id)
);
create index day_upset_day on day_upset (location_id, on_day);

create sequence day_upset_line_seq start with 1 increment by 50;
create table day_upset_line (
  id bigint primary key,
  upset_id bigint not null references day_upset (id),
  appointment_id bigint not null references appointment (id),
  what varchar(32) not null,
  was varchar(120),
  becomes varchar(120)
);
create index day_upset_line_upset on day_upset_line (upset_id);

-- When a therapist treats nobody: a break, leave, half a day, a day they were called out.
-- A weekday makes it weekly; without times it is the whole day.
create sequence time_off_seq start with 1 increment by 50;
create table time_off (
  id bigint primary key,
  version integer not null,
  staff_id bigint not null references staff (id),
  kind varchar(32) not null,
  first_day date not null,
  last_day date,
  weekday integer,
  begins time,
  ends time,
  words varchar(200),
  constraint time_off_days check (last_day is null or first_day <= last_day),
  constraint time_off_times check (begins is null or begins < ends)
);
create index time_off_staff on time_off (staff_id, last_day);

-- How many patients a therapist sees at once, where it is not what the location says.
create sequence therapist_places_seq start with 1 increment by 50;
create table therapist_places (
  id bigint primary key,
  version integer not null,
  staff_id bigint not null references staff (id),
  at_once integer not null,
  constraint therapist_places_once unique (staff_id)
);

-- How many visits are authorized, and until when.
create sequence care_plan_seq start with 1 increment by 50;
create table care_plan (
  id bigint primary key,
  version integer not null,
  patient_id bigint not null references patient (id),
  first_day date not null,
  last_day date not null,
  visits integer,
  authorized_by varchar(120),
  ended_on date,
  constraint care_plan_days check (first_day <= last_day)
);
create index care_plan_patient on care_plan (patient_id, last_day);
