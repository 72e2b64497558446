using Microsoft.EntityFrameworkCore.Storage.ValueConversion;

namespace MitigationOffice.Business.Data;

/// <summary>Every stored DateTime is an instant in UTC, whole microseconds (what both databases keep).</summary>
public sealed class UtcInstant() : ValueConverter<DateTime, DateTime>(
    v => ToUtc(v),
    v => DateTime.SpecifyKind(v, DateTimeKind.Utc))
{
    private static DateTime ToUtc(DateTime value)
    {
        var utc = value.Kind == DateTimeKind.Local ? value.ToUniversalTime() : DateTime.SpecifyKind(value, DateTimeKind.Utc);
        return new DateTime(utc.Ticks - utc.Ticks % 10, DateTimeKind.Utc);
    }
}
