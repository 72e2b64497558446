using Microsoft.EntityFrameworkCore;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Systems;

namespace MitigationOffice.Business.Service;

/// <summary>The houses in which a recalled fan hangs.</summary>
public static class RecallList
{
    public sealed record Row(
        int ComponentId, int HouseId, string House, string City, string State, string Zip, string For, string Email, string Phone, string MailingAddress, string Tag, string Serial, DateOnly FittedOn,
        DateTime? WrittenAtUtc, int? MessageId, int? LetterId);

    /// <summary>Every fan of the model that is still in a house and whose serial number is meant; a fan without one is meant too.</summary>
    public static async Task<IReadOnlyList<Row>> ReadAsync(OfficeDb db, FanRecall recall)
    {
        var rows = await (from s in db.Systems.AsNoTracking()
                          from c in s.Components
                          where c.Kind == ComponentKind.Fan && c.RemovedOn == null && c.Model == recall.Model
                          join h in db.Houses on s.HouseId equals h.Id
                          let owner = h.Owners.Where(o => o.ToDay == null).OrderByDescending(o => o.FromDay).Select(o => o.Customer!).FirstOrDefault()
                          let notice = db.RecallNotices.Where(n => n.FanRecallId == recall.Id && n.SystemComponentId == c.Id).FirstOrDefault()
                          orderby h.Zip, h.Street, c.Id
                          select new Row(
                              c.Id, h.Id, h.Street + (h.Street2 == "" ? "" : ", " + h.Street2), h.City, h.State, h.Zip, owner == null ? "" : owner.Name, owner == null ? "" : owner.Email, owner == null ? "" : owner.Phone,
                              owner == null ? "" : owner.MailingAddress, s.TagNumber, c.Serial, c.FittedOn, notice == null ? null : notice.AtUtc, notice == null ? null : notice.OutboxMessageId, notice == null ? null : notice.LetterDocumentId)).ToListAsync();
        return [.. rows.Where(r => IsMeant(r.Serial, recall.SerialFrom, recall.SerialTo))];
    }

    /// <summary>Between first and last as people count serial numbers: runs of digits by their value, letters as letters.</summary>
    public static bool IsMeant(string serial, string from, string to) =>
        serial.Length == 0 || ((from.Length == 0 || Compare(serial, from) >= 0) && (to.Length == 0 || Compare(serial, to) <= 0));

    public static int Compare(string a, string b)
    {
        var (x, y) = (Key(a), Key(b));
        return string.CompareOrdinal(x, y);
    }

    /// <summary>"hx-77" → "HX" and 77 in eighteen digits: what stands between letters and digits does not count.</summary>
    private static string Key(string serial)
    {
        var parts = new System.Text.StringBuilder();
        for (var i = 0; i < serial.Length;)
        {
            if (!char.IsAsciiDigit(serial[i]))
            {
                if (char.IsLetter(serial[i])) parts.Append(char.ToUpperInvariant(serial[i]));
                i++;
                continue;
            }

            var start = i;
            while (i < serial.Length && char.IsAsciiDigit(serial[i])) i++;
            parts.Append(serial[start..i].TrimStart('0').PadLeft(18, '0'));
        }

        return parts.ToString();
    }
}
