package clinic.stimshelf.appointments;

/** An appointment was booked, moved, kept, missed or cancelled. */
public record AppointmentChanged(Long appointmentId, Long patientId, Long locationId) {}
