using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.EntityFrameworkCore;
using MimeKit;
using MitigationOffice.Business.Data;
using MitigationOffice.Business.Messages;

namespace MitigationOffice.Web.Pages.FollowUp;

/// <summary>One message exactly as it was rendered, and what became of it.</summary>
public sealed class MessageModel(OfficeDb db) : PageModel
{
    public OutboxMessage Message { get; private set; } = null!;
    public MimeMessage Mime { get; private set; } = null!;
    public IReadOnlyList<MimePart> Attachments { get; private set; } = [];
    public TimeZoneInfo Zone { get; private set; } = TimeZoneInfo.Utc;

    public async Task<IActionResult> OnGetAsync(int id)
    {
        if (!await ReadAsync(id)) return NotFound();
        Zone = HouseTime.Zone(await db.Company.Select(c => c.TimeZone).SingleAsync());
        return Page();
    }

    public async Task<IActionResult> OnGetFileAsync(int id) =>
        await ReadAsync(id) ? File(Message.Mime, "message/rfc822", MailFolder.NameOf(id, Message.Subject)) : NotFound();

    public async Task<IActionResult> OnGetAttachmentAsync(int id, int part)
    {
        if (!await ReadAsync(id) || part < 0 || part >= Attachments.Count || Attachments[part].Content is not { } content) return NotFound();
        using var bytes = new MemoryStream();
        await content.DecodeToAsync(bytes);
        return File(bytes.ToArray(), "application/octet-stream", Attachments[part].FileName ?? "attachment");
    }

    private async Task<bool> ReadAsync(int id)
    {
        if (await db.Outbox.AsNoTracking().SingleOrDefaultAsync(m => m.Id == id) is not { } message) return false;
        using var bytes = new MemoryStream(message.Mime);
        (Message, Mime) = (message, await MimeMessage.LoadAsync(bytes));
        Attachments = [.. Mime.Attachments.OfType<MimePart>()];
        return true;
    }
}
