from django.urls import path

from jobs.mail import views

urlpatterns = [
    path("mail/", views.outbox, name="outbox"),
    path("mail/<int:pk>/", views.mail, name="mail"),
    path("mail/<int:pk>/again/", views.mail_try_again, name="mail_try_again"),
    path("mail/<int:pk>/arrived/", views.mail_arrived, name="mail_arrived"),
    path("mail/<int:pk>/withdraw/", views.mail_withdraw, name="mail_withdraw"),
    path("mail/quote/<str:number>/", views.quote_mail, name="quote_mail"),
]
