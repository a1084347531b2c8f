-- Whether a program that was stopped had been given up by the patient.

alter table program add column abandoned boolean default false not null;
create index program_stopped on program (location_id, stopped_at);
