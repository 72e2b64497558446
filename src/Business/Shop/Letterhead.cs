using MitigationOffice.Business.Messages;

namespace MitigationOffice.Business.Shop;

public static class Letterhead
{
    /// <summary>The company as the writer of mail, at the configured sender and public address.</summary>
    public static MailIdentity Of(CompanyProfile company, MailSettings mail)
    {
        var from = mail.From.Length > 0 ? mail.From : company.Email.Length > 0 ? company.Email : $"office@{mail.PublicAddress.Host}";
        var place = $"{company.City}, {company.State} {company.Zip}".Trim(' ', ',');
        var postal = string.Join(", ", new[] { company.Street, place }.Where(p => p.Length > 0));
        return new MailIdentity(company.Name.Length > 0 ? company.Name : "The office", from, company.Email, postal, company.Phone, mail.PublicAddress);
    }
}
