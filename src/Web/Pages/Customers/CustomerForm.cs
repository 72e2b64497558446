using MitigationOffice.Business.Customers;
using MitigationOffice.Web.Pages.Houses;
using MitigationOffice.Web.Setup.Forms;

namespace MitigationOffice.Web.Pages.Customers;

/// <summary>A customer as typed.</summary>
public sealed class CustomerForm
{
    public string? Kind { get; set; }
    public string? Name { get; set; }
    public string? ContactName { get; set; }
    public string? Email { get; set; }
    public string? Phone { get; set; }
    public string? OtherPhone { get; set; }
    public string? MailingAddress { get; set; }
    public string? Notes { get; set; }

    public static CustomerForm Of(Customer c) => new()
    {
        Kind = c.Kind.ToString(), Name = c.Name, ContactName = c.ContactName, Email = c.Email, Phone = c.Phone, OtherPhone = c.OtherPhone,
        MailingAddress = c.MailingAddress, Notes = c.Notes,
    };

    public void Write(Customer c, FormReading read, string at = "")
    {
        c.Kind = read.Choice(Kind, at + nameof(Kind), "kind of customer", CustomerKind.Person);
        c.Name = read.Text(Name, at + nameof(Name), "customer's name", needed: true, most: 200);
        c.ContactName = read.Text(ContactName, at + nameof(ContactName), "name of whom to ask for", most: 200);
        c.Email = read.Email(Email, at + nameof(Email));
        c.Phone = read.Phone(Phone, at + nameof(Phone));
        c.OtherPhone = read.Phone(OtherPhone, at + nameof(OtherPhone), "other phone number");
        c.MailingAddress = read.Text(MailingAddress, at + nameof(MailingAddress), "mailing address", most: 500);
        c.Notes = read.Text(Notes, at + nameof(Notes), "notes", most: 20_000);
        if (c.Email.Length + c.Phone.Length + c.OtherPhone.Length + c.MailingAddress.Length == 0)
            read.Refuse(at + nameof(Phone), "Write a phone number, an e-mail address or a mailing address: one way to reach them.");
        c.MakeSearchable();
    }
}
