namespace MitigationOffice.Business.Data;

/// <summary>Who is acting: a signed-in person, a house owner by link, or the office's own jobs.</summary>
public sealed class Actor
{
    public const string Office = "the office's jobs";

    public string Name { get; set; } = Office;
}
