namespace MitigationOffice.Business.Work;

/// <summary>Takes an appointment off; its row stays, so that calendars that hold it learn of it.</summary>
public static class CancelAppointment
{
    public static void Write(Appointment appointment, DateTime nowUtc) =>
        (appointment.CancelledAtUtc, appointment.ChangedAtUtc, appointment.Sequence) = (nowUtc, nowUtc, appointment.Sequence + 1);
}
