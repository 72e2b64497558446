using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using MitigationOffice.Business.Shop;

namespace MitigationOffice.Business.FollowUp;

/// <summary>A reminder and the rule that made it.</summary>
public sealed record RuledReminder(Reminder Reminder, ReminderRule Rule);

/// <summary>What is said to one reader about one house at one time, in one message or letter. Offers and upkeep are never said together:
/// that is for the caller to see to.</summary>
public sealed record GatheredWords(string Key, string Subject, string Text)
{
    /// <summary>The paragraphs of the text that stand over the others.</summary>
    public IReadOnlyList<string> Heads { get; private init; } = [];

    private static readonly string[] Numbers = ["", "One", "Two", "Three", "Four", "Five", "Six", "Seven", "Eight", "Nine"];

    public static GatheredWords Of(IReadOnlyList<RuledReminder> said, ReminderLetter.Reader reader, CompanyProfile company) =>
        said.Count == 1 ? Single(said[0], reader, company) : Several(said, reader, company);

    private static GatheredWords Single(RuledReminder one, ReminderLetter.Reader reader, CompanyProfile company)
    {
        var values = ReminderLetter.Values(one.Reminder.DueOn, one.Reminder.Because, reader, company);
        return new("reminder:" + one.Reminder.Key, ReminderText.Fill(one.Rule.Subject, values), ReminderText.Fill(one.Rule.Body, values));
    }

    private static GatheredWords Several(IReadOnlyList<RuledReminder> said, ReminderLetter.Reader reader, CompanyProfile company)
    {
        var count = said.Count < Numbers.Length ? Numbers[said.Count] : said.Count.ToString(CultureInfo.InvariantCulture);
        var subject = reader.HouseId == 0 ? $"{count} things for the office to see to" : $"{count} things about your radon system at {reader.House}";
        var text = new StringBuilder(reader.HouseId == 0 ? $"{count} things are due." : $"Dear {reader.Name},\n\n{count} things are due for the radon system at {reader.House}.");
        var heads = new List<string>();
        for (var i = 0; i < said.Count; i++)
        {
            var one = Single(said[i] with { Rule = Core(said[i].Rule) }, reader, company);
            heads.Add(string.Create(CultureInfo.InvariantCulture, $"{i + 1}. {one.Subject}"));
            text.Append("\n\n").Append(heads[i]).Append("\n\n").Append(Capital(one.Text));
        }

        if (company.Name.Length > 0) text.Append("\n\n").Append(company.Name);
        // The same reminders make the same key, whichever of two programs gathers them.
        var keys = string.Join('|', said.Select(s => s.Reminder.Key));
        return new($"reminders:{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(keys)))[..32]}", subject, text.ToString()) { Heads = heads };
    }

    /// <summary>The rule's words without greeting and signature, which stand once around all of them.</summary>
    private static ReminderRule Core(ReminderRule rule)
    {
        var parts = rule.Body.ReplaceLineEndings("\n").Split("\n\n", StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).ToList();
        if (parts.Count > 1 && parts[0].Contains("{name}", StringComparison.Ordinal) && parts[0].EndsWith(',') && parts[0].Length <= 40) parts.RemoveAt(0);
        if (parts.Count > 1 && parts[^1] == "{company}") parts.RemoveAt(parts.Count - 1);
        return new ReminderRule { Code = rule.Code, Name = rule.Name, Subject = rule.Subject, Body = string.Join("\n\n", parts) };
    }

    private static string Capital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];
}
