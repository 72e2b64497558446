using System.CommandLine;
using Microsoft.AspNetCore.Identity;
using MitigationOffice.Business.Staff;
using MitigationOffice.Web.Setup;

namespace MitigationOffice.Web.Commands;

public static class UserCommand
{
    public static Command Make(string[] args, Option<string?> data)
    {
        var user = new Command("user", "The people who may sign in.");
        var add = new Command("add", "Add a person; the password is read from standard input.");
        var email = new Argument<string>("email");
        var name = new Option<string>("--name") { Required = true };
        var role = new Option<StaffRole>("--role-in-office") { DefaultValueFactory = _ => StaffRole.Owner };
        add.Arguments.Add(email);
        add.Options.Add(name);
        add.Options.Add(role);
        add.SetAction((parse, cancel) => AddAsync(
            args, parse.GetValue(data), parse.GetValue(email)!, parse.GetValue(name)!, parse.GetValue(role), cancel));
        user.Subcommands.Add(add);
        return user;
    }

    private static async Task<int> AddAsync(string[] args, string? data, string email, string name, StaffRole role, CancellationToken cancel) =>
        await CommandLine.GuardAsync(async () =>
        {
            await using var app = OfficeHost.Build(args, data, "none", demo: false);
            await app.PrepareAsync(demo: false, cancel);
            await using var scope = app.Services.CreateAsyncScope();
            var users = scope.ServiceProvider.GetRequiredService<UserManager<StaffMember>>();
            await Console.Error.WriteLineAsync("Password:");
            var password = await Console.In.ReadLineAsync(cancel) ?? "";
            var made = await users.CreateAsync(new StaffMember { UserName = email, Email = email, FullName = name, Role = role }, password);
            if (!made.Succeeded) throw new InvalidOperationException(string.Join(" ", made.Errors.Select(e => e.Description)));
            await Console.Out.WriteLineAsync($"{name} may sign in as {email}.");
        });
}
