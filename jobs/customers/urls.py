from django.urls import path

from jobs.customers import views

urlpatterns = [
    path("enquiries/", views.enquiries, name="enquiries"),
    path("enquiries/new/", views.enquiry_new, name="enquiry_new"),
    path("enquiries/<int:pk>/", views.enquiry, name="enquiry"),
    path("enquiries/<int:pk>/visit/", views.enquiry_visit, name="enquiry_visit"),
    path("enquiries/<int:pk>/close/", views.enquiry_close, name="enquiry_close"),
    path("enquiries/<int:pk>/reopen/", views.enquiry_reopen, name="enquiry_reopen"),
    path("customers/", views.customers, name="customers"),
    path("customers/<int:pk>/", views.customer, name="customer"),
    path("customers/<int:pk>/news/end/", views.customer_news_end, name="customer_news_end"),
    path("customers/<int:pk>/change/", views.customer_change, name="customer_change"),
    path("customers/<int:customer_pk>/properties/new/", views.property_change, name="property_new"),
    path("properties/<int:pk>/change/", views.property_change, name="property_change"),
]
