-- What a therapist measured on a patient. A wrong entry is voided and stays.

create sequence outcome_note_seq start with 1 increment by 50;
create table outcome_note (
  id bigint primary key,
  version integer not null,
  ref varchar(64),
  patient_id bigint not null references patient (id),
  program_id bigint references program (id),
  measure varchar(32) not null,
  side varchar(16) not null,
  what varchar(120) not null,
  involved numeric(12,4) not null,
  uninvolved numeric(12,4),
  note varchar(500),
  happened_at timestamp(6) with time zone not null,
  recorded_at timestamp(6) with time zone not null,
  late_reason varchar(500),
  staff_id bigint references staff (id),
  voided_at timestamp(6) with time zone,
  void_reason varchar(500),
  constraint outcome_note_ref unique (ref)
);
create index outcome_note_patient on outcome_note (patient_id, happened_at);
create index outcome_note_program on outcome_note (program_id);
