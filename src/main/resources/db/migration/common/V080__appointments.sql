-- Who comes when, to whom, in which room, with which unit.

create sequence appointment_seq start with 1 increment by 50;
create table appointment (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  location_id bigint not null references location (id),
  patient_id bigint not null references patient (id),
  therapist_id bigint references staff (id),
  room_id bigint references room (id),
  unit_id bigint references unit (id),
  starts_at timestamp(6) with time zone not null,
  ends_at timestamp(6) with time zone not null,
  treatment_starts_at timestamp(6) with time zone,
  treatment_ends_at timestamp(6) with time zone,
  channels integer not null,
  state varchar(32) not null,
  reason varchar(500),
  note varchar(500),
  arrived_at timestamp(6) with time zone,
  completed_at timestamp(6) with time zone,
  unit_in_use boolean not null,
  booked_at timestamp(6) with time zone not null,
  constraint appointment_ref unique (ref),
  constraint appointment_span check (starts_at < ends_at),
  constraint appointment_treatment check (treatment_starts_at < treatment_ends_at)
);
create index appointment_location on appointment (location_id, starts_at);
create index appointment_patient on appointment (patient_id, starts_at);
create index appointment_therapist on appointment (therapist_id, starts_at);
create index appointment_room on appointment (room_id, starts_at);
create index appointment_unit on appointment (unit_id, starts_at);

-- One row a patient, room or unit and day. Whoever books locks it, so that of two clerks one wins.
create sequence resource_day_seq start with 1 increment by 50;
create table resource_day (
  id bigint primary key,
  resource_kind varchar(32) not null,
  resource_id bigint not null,
  on_day date not null,
  constraint resource_day_once unique (resource_kind, resource_id, on_day)
);
